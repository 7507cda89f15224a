import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { beforeEach, describe, expect, it } from "vitest";
import { makeRoll } from "../bench/synthetic-roll.ts";
import { stock, stockFile } from "./host/rolls.ts";
import { useSession } from "./host/session.ts";
import { packedExtension } from "./host/vsix.ts";
import { until } from "./host/wait.ts";

/** Every scan is decoded twice: time enough for that on a machine that does other things too. */
const PATIENT = { timeout: 90_000 };
const NAME = "harbour.roll.yaml";

describe("a new roll from a stock", () => {
  const session = useSession(() => ({
    vsix: [packedExtension("host")],
    folder: "Varnhaven",
    files: { [stockFile]: stock, "recipe.stock.yaml": "version: 1\ntitle: Another\n" },
    prepare: (folder) => {
      // Its own recipe is named otherwise, so that the name which is proposed is free.
      makeRoll(join(folder, "harbour"), "earlier", { width: 600, height: 400, frames: 2 });
    },
    size: { width: 1200, height: 760 },
    settings: { "workbench.startupEditor": "none" },
  }));

  const widget = () => session().window.page.locator(".quick-input-widget");
  const title = (): Promise<string> => widget().locator(".quick-input-title").innerText();
  const labels = (): Promise<string[]> => widget().locator(".monaco-list-row .label-name").allInnerTexts();
  const box = () => widget().locator("input").first();
  const pick = async (label: string): Promise<void> => {
    await until(`the choice ${label}`, async () => (await labels()).includes(label));
    await box().fill(label);
    await until(`${label} alone`, async () => (await labels()).join() === label);
    await session().window.page.keyboard.press("Enter");
  };
  const step = (number: string): Promise<void> =>
    expect.poll(title, { timeout: 30_000 }).toBe(`New roll from stock (${number})`);
  const begin = (...args: unknown[]): void => {
    // The command goes on until somebody has answered.
    void session()
      .window.run("rollbook.newRollFromStock", ...args)
      .catch(() => undefined);
  };
  const written = (): string => join(session().folder, "harbour", NAME);

  beforeEach(async () => {
    await session().window.openFile(stockFile);
  });

  it("can be left at every question, and then nothing was written", async () => {
    const { page } = session().window;
    const leave = async (): Promise<void> => {
      await page.keyboard.press("Escape");
      await widget().waitFor({ state: "hidden" });
      expect(existsSync(written())).toBe(false);
    };
    begin();
    await step("1/3");
    await leave();
    begin();
    await step("1/3");
    await pick("Northlight 400");
    await step("2/3");
    await leave();
    begin();
    await step("1/3");
    await pick("No stock");
    await step("2/3");
    await pick("harbour/scans");
    await step("3/3");
    await leave();
  });

  it("goes back, proposes a name, and does not take one that is no roll's or is there already", async () => {
    const { page } = session().window;
    begin();
    await step("1/3");
    await pick("Northlight 400");
    await step("2/3");
    await widget().locator(".quick-input-left-action-bar .action-label").click();
    await step("1/3");
    await pick("Northlight 400");
    await step("2/3");
    await pick("harbour/scans");
    await step("3/3");
    await expect.poll(() => box().inputValue()).toBe(NAME);
    const message = widget().locator(".quick-input-message");
    await box().fill("harbour.yaml");
    await expect.poll(() => message.innerText()).toContain("ends in .roll.yaml");
    await box().fill("earlier.roll.yaml");
    await expect.poll(() => message.innerText()).toContain("There is a recipe of this name already.");
    await page.keyboard.press("Enter");
    await step("3/3");
    await page.keyboard.press("Escape");
    await widget().waitFor({ state: "hidden" });
  });

  it("begun from a stock's menu asks two questions, looks the scans through, and opens the recipe", async () => {
    const { window, server, text, folder, picture } = session();
    // As the explorer's menu calls it: with the stock.
    void server
      .exec(
        (vscode, path) => vscode.commands.executeCommand("rollbook.newRollFromStock", vscode.Uri.file(path)),
        join(folder, stockFile),
      )
      .catch(() => undefined);
    await step("1/2");
    expect(await widget().locator(".quick-input-left-action-bar .action-label").count()).toBe(0);
    await pick("harbour/scans");
    await step("2/2");
    await expect.poll(() => box().inputValue()).toBe(NAME);
    await window.page.keyboard.press("Enter");
    await expect.poll(() => existsSync(written()), PATIENT).toBe(true);
    await window.waitForEditor(NAME);
    expect(await window.notification("frames begun")).toContain("2 frames begun.");
    const recipe = await text.waitForText("the recipe", (now) => now.includes("frames:"));
    expect(recipe).toBe(readFileSync(written(), "utf8"));
    expect(recipe).toContain("stock: ../stocks/northlight-400.stock.yaml");
    expect(recipe).toContain("blank: LIGHT.dng");
    expect(recipe).toMatch(/# Found by itself.*\n(?: {2}# .*\n)* {2}base: \{ density: \[0\.\d+, 0\.\d+, 0\.\d+\]/);
    expect([...recipe.matchAll(/scan: (F\d+\.dng)$/gm)].map(([, name]) => name)).toEqual(["F01.dng", "F02.dng"]);
    expect(await text.waitForProblems("no problem", (all) => all.length === 0)).toEqual([]);
    await picture("editor-begun-roll");
  });
});
