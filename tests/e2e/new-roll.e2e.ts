import { copyFileSync, cpSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeEach, describe, expect, it } from "vitest";
import { applyChanges, editRecipe } from "../../extension/recipe/edit/edit.ts";
import { valueDigest } from "../../extension/work/new-roll/renew/automatic-values.ts";
import { writeRoll } from "../unit/work/new-roll/rolls.ts";
import { LANTERN_64, NORTHLIGHT_400, SKERRY_100 } from "../witness/film/stocks.ts";
import { makeRoll } from "../bench/synthetic-roll.ts";
import { stock, stockFile } from "./host/material/rolls.ts";
import { useSession } from "./host/session.ts";
import { packedExtension } from "./host/editor/vsix.ts";
import { until } from "./host/wait.ts";

/** Every scan is decoded and measured: time enough for that on a machine that does other things too. */
const PATIENT = { timeout: 90_000 };
const NAME = "harbour.roll.yaml";

/** Two rolls of two films in one folder of scans. */
function twoRolls(folder: string): void {
  mkdirSync(join(folder, "scans"), { recursive: true });
  for (const [letter, stock] of [
    ["S", NORTHLIGHT_400],
    ["T", SKERRY_100],
  ] as const) {
    const made = writeRoll({ stock, shots: [{ of: "portrait" }, { of: "street" }] });
    for (const name of readdirSync(join(made, "scans")))
      if (letter === "S" || name !== "S0001.dng")
        copyFileSync(join(made, "scans", name), join(folder, "scans", name.replace("S", letter)));
    rmSync(made, { recursive: true });
  }
}

/** One slide of snow, as grey as silver, with its blank. */
function snowSlide(folder: string): void {
  const made = writeRoll({ stock: LANTERN_64, shots: [{ of: "snow", stops: -1 }] });
  cpSync(join(made, "scans"), join(folder, "scans"), { recursive: true });
  rmSync(made, { recursive: true });
}

describe("a new roll from a stock", () => {
  const session = useSession(() => ({
    vsix: [packedExtension("host")],
    folder: "Varnhaven",
    files: { [stockFile]: stock, "recipe.stock.yaml": "version: 1\ntitle: Another\n" },
    prepare: (folder) => {
      // Its own recipe is named otherwise, so that the name which is proposed is free.
      makeRoll(join(folder, "harbour"), "earlier", { width: 600, height: 400, frames: 2 });
      twoRolls(join(folder, "pier"));
      snowSlide(join(folder, "snow"));
    },
    size: { width: 1280, height: 720 },
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
    expect.poll(title, { timeout: 30_000 }).toBe(`New roll from scans (${number})`);
  const begin = (...args: unknown[]): void => {
    // The command goes on until somebody has answered.
    void session()
      .window.run("rollbook.newRollFromScans", ...args)
      .catch(() => undefined);
  };
  const shot = async (name: string): Promise<void> => {
    mkdirSync(".cache/e2e-shots", { recursive: true });
    await session().window.page.screenshot({ path: `.cache/e2e-shots/${name}.png` });
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
    await step("2/4");
    await pick("As the scans show");
    await step("3/4");
    await pick("harbour/scans");
    await step("4/4");
    await leave();
  });

  it("finds a film by its name, its speed or its kind", async () => {
    const { page } = session().window;
    begin();
    await step("1/3");
    await pick("A film by its name…");
    await step("2/4");
    await until("the films", async () => (await labels()).length > 5);
    await box().fill("portra 400");
    await expect.poll(labels).toContain("Kodak Portra 400");
    await shot("new-roll-films");
    await page.keyboard.press("ArrowDown");
    await page.keyboard.press("Enter");
    await step("3/4");
    await page.keyboard.press("Escape");
    await widget().waitFor({ state: "hidden" });
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
        (vscode, path) => vscode.commands.executeCommand("rollbook.newRollFromScans", vscode.Uri.file(path)),
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
    expect(await window.notification("frames created")).toContain("2 frames created.");
    const recipe = await text.waitForText("the recipe", (now) => now.includes("frames:"));
    expect(recipe).toBe(readFileSync(written(), "utf8"));
    expect(recipe).toContain("stock: ../stocks/northlight-400.stock.yaml");
    expect(recipe).toContain("blank: LIGHT.dng");
    expect(recipe).toMatch(
      /# Measured .*\n(?: {2}# .*\n)* {2}base:(?: \{|\n {4}) ?density: \[0\.\d+, 0\.\d+, 0\.\d+\]/,
    );
    expect([...recipe.matchAll(/scan: (F\d+\.dng)$/gm)].map(([, name]) => name)).toEqual(["F01.dng", "F02.dng"]);
    expect(await text.waitForProblems("no problem", (all) => all.length === 0)).toEqual([]);
    await picture("editor-begun-roll");
  });

  it("renews automatic values: shows what changes and what is kept, and edits once", async () => {
    const { window, text, folder } = session();
    const { page } = window;
    await window.openFile(join("harbour", NAME));
    const before = await text.text();
    const exposure = /"01":[^]*?exposure: (-?[\d.]+)/.exec(before);
    // What a person sets, and what an earlier version found otherwise: its digest goes with it.
    const value = { left: 0.2, top: 0.2, width: 0.5, height: 0.5, tilt: 0 };
    const digest = valueDigest([value])!;
    const edits = [
      { path: ["frames", "01", "area"], value },
      { path: ["automatic", "scans", "F01.dng", "area"], value: digest },
      { path: ["frames", "02", "positive", "exposure"], value: 1.5 },
    ];
    const changed = applyChanges(before, editRecipe(before, edits, { kind: "roll" }));
    writeFileSync(join(folder, "harbour", NAME), changed);
    await text.waitForText("the changed recipe", (now) => now === changed);
    const run = (): void => void window.run("rollbook.renewAutomaticValues").catch(() => undefined);
    run();
    await expect.poll(title).toBe("Renew automatic values");
    expect(await labels()).toEqual(["Base", "Filtration", "Exposure", "Area"]);
    await shot("renew-groups");
    await page.keyboard.press("Enter");
    await expect.poll(title, PATIENT).toMatch(/^Renew automatic values: 1 change, 1 are kept$/);
    expect(await labels()).toEqual(["frame 01 area", "frame 02 exposure"]);
    await shot("renew-values");
    await page.keyboard.press("Enter");
    const after = await text.waitForText("the renewed area", (now) => now !== changed);
    expect(after).toContain("exposure: 1.5");
    expect(after).not.toContain("left: 0.2, top: 0.2");
    expect(exposure === null || after.includes(`exposure: ${exposure[1]}`)).toBe(true);
    await text.undo();
    expect(await text.waitForText("the text as it was", (now) => now === changed)).toBe(changed);
  });

  it("asks for the kind of film where the scans leave it open, and goes by the answer", async () => {
    const { page } = session().window;
    begin();
    await step("1/3");
    await pick("No stock");
    await step("2/4");
    await pick("As the scans show");
    await step("3/4");
    await pick("snow/scans");
    await step("4/4");
    await page.keyboard.press("Enter");
    await until("the question", async () => (await labels()).includes("slide"), { limit: 90_000 });
    await shot("new-roll-kind");
    // What the scans look like comes first.
    expect(await labels()).toEqual(["black-and-white negative", "colour negative", "slide"]);
    await pick("slide");
    const made = join(session().folder, "snow", "snow.roll.yaml");
    await expect.poll(() => existsSync(made), PATIENT).toBe(true);
    expect(readFileSync(made, "utf8")).toMatch(/^film: slide$/m);
  }, 300_000);

  it("offers two rolls of one folder as two, and creates both", async () => {
    const { page } = session().window;
    begin();
    await step("1/3");
    await pick("No stock");
    await step("2/4");
    await pick("colour negative");
    await step("3/4");
    await pick("pier/scans");
    await step("4/4");
    await page.keyboard.press("Enter");
    await until("the question", async () => (await labels()).includes("Create two rolls"), { limit: 180_000 });
    await shot("new-roll-two");
    expect(await labels()).toEqual(["Create two rolls", "Create one roll"]);
    await page.keyboard.press("Enter");
    const made = (n: number): string => join(session().folder, "pier", `pier-${n}.roll.yaml`);
    await expect.poll(() => existsSync(made(2)), { timeout: 180_000 }).toBe(true);
    expect(readFileSync(made(1), "utf8")).toContain("scan: S0011.dng");
    expect(readFileSync(made(2), "utf8")).toContain("scan: T0010.dng");
    expect(readFileSync(made(2), "utf8")).not.toContain("scan: S0011.dng");
  }, 400_000);
});
