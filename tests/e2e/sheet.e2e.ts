/** The whole job in the roll sheet, with the keyboard alone: 36 scans become a roll, its pictures and a contact sheet. */
import { existsSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import type { Frame } from "playwright-core";
import sharp from "sharp";
import { describe, expect, it } from "vitest";
import { makeRoll } from "../bench/synthetic-roll.ts";
import { packedExtension } from "./host/editor/vsix.ts";
import { stock, stockFile } from "./host/material/rolls.ts";
import { useSession } from "./host/session.ts";
import { until } from "./host/wait.ts";

const FRAMES = 36;
const NAME = "quay.roll.yaml";
/** 36 scans are decoded on a machine that does other things too. */
const PATIENT = { limit: 180_000 };

describe("a folder of 36 scans", () => {
  const session = useSession(() => ({
    vsix: [packedExtension("host")],
    folder: "Varnhaven",
    files: { [stockFile]: stock },
    prepare: (folder) => {
      makeRoll(join(folder, "quay"), "earlier", { width: 300, height: 200, frames: FRAMES });
      rmSync(join(folder, "quay", "earlier.roll.yaml"));
    },
    size: { width: 1280, height: 720 },
    settings: { "workbench.startupEditor": "none", "files.autoSave": "off" },
  }));
  const page = () => session().window.page;
  const widget = () => page().locator(".quick-input-widget").first();
  const input = () => widget().locator("input").first();
  const palette = (title: string): Promise<void> => session().window.runFromPalette(`Rollbook: ${title}`);
  /** Runs a command that asks at once: its dialog takes the palette's own place. */
  const begin = (title: string): void => void palette(title).catch(() => undefined);
  const pick = async (label: string): Promise<void> => {
    const labels = (): Promise<string[]> => widget().locator(".monaco-list-row .label-name").allInnerTexts();
    await until(`the choice ${label}`, async () => (await labels()).includes(label), PATIENT);
    await input().fill(label);
    await until(`${label} alone`, async () => (await labels()).join() === label);
    await page().keyboard.press("Enter");
  };
  /** Answers a dialog for a file or a folder, which is in the page, with a path. */
  const answer = async (path: string): Promise<void> => {
    await until("the dialog's first folder", async () => (await input().inputValue()).includes("Varnhaven"), PATIENT);
    await until("the dialog to rest", async () => {
      if ((await input().inputValue()) !== path) await input().fill(path);
      await page().waitForTimeout(400);
      return (await input().inputValue()) === path;
    });
    await input().press("Enter");
    await widget().waitFor({ state: "hidden" });
  };
  const sheet = (): Promise<Frame> =>
    session().window.webview(() => document.querySelector(".sheet .sheet-tile.drawn") !== null);
  const written = (): string => join(session().folder, "quay", NAME);
  const recipe = (): Promise<string> =>
    session().server.exec(
      (vscode) => vscode.workspace.textDocuments.find((d) => d.uri.path.endsWith("quay.roll.yaml"))?.getText() ?? "",
    );
  const numbers = (text: string, key: RegExp): number[] => [...text.matchAll(key)].map((found) => Number(found[1]));
  const EXPOSURE = /\n {2}"\d+":[^"]*?exposure: (-?[\d.]+)/g;

  it("becomes a roll", async () => {
    await page().locator(".monaco-workbench").waitFor();
    begin("New Roll from Scans…");
    await pick("Northlight 400");
    await pick("quay/scans");
    await until("the proposed name", async () => (await input().inputValue()) === NAME, PATIENT);
    await page().keyboard.press("Enter");
    await until("the recipe", async () => existsSync(written()), PATIENT);
    expect(await session().window.notification("frames created")).toContain(`${FRAMES} frames created.`);
    await session().window.waitForEditor(NAME);
  });

  it("is shown in one sheet, changed on a selection and matched, each with one edit", async () => {
    await session().window.openFile(`quay/${NAME}`);
    await palette("Open Roll Sheet");
    const frame = await sheet();
    await until("all tiles in view", async () => {
      const [drawn, all] = await frame.evaluate(() => [
        document.querySelectorAll(".sheet-tile.drawn:not([hidden])").length,
        document.querySelectorAll(".sheet-tile:not([hidden])").length,
      ]);
      return drawn! > 10 && drawn === all;
    });
    const before = await recipe();
    await frame.locator(".sheet-tile.focused").focus();
    await page().keyboard.press("Home");
    await page().keyboard.press("Space");
    for (let k = 0; k < 3; k++) await page().keyboard.press("Shift+ArrowRight");
    await until("four frames", async () => (await frame.locator(".side h2").innerText()) === "4 frames");
    await session().picture("sheet-selection");
    const slider = frame.locator('[data-control="exposure"] .slider:not([hidden]) input[type="range"]');
    await slider.focus();
    for (let k = 0; k < 30; k++) await page().keyboard.press("ArrowRight");
    // On a busy machine the keys may come in more than one run, each an edit of its own.
    const was = numbers(before, EXPOSURE);
    const steps = async () => numbers(await recipe(), EXPOSURE).map((v, i) => Math.round(100 * (v - was[i]!)));
    await until("the change", async () => (await steps()).slice(0, 4).every((step) => step === 30));
    expect((await steps()).slice(4).every((step) => step === 0)).toBe(true);

    const changed = await recipe();
    const offer = frame.locator(".offer vscode-button", { hasText: "Apply" });
    await until("the match to be offered", async () => {
      // The sheet may still be told of the last change, which drops an offer.
      if (await offer.isVisible()) return true;
      await frame.locator(".sheet-tile.focused").focus();
      await page().keyboard.press("m");
      await offer.waitFor({ timeout: 5000 }).catch(() => undefined);
      return offer.isVisible();
    });
    expect(await recipe()).toBe(changed);
    await session().picture("sheet-match");
    await page().keyboard.press("Enter");
    await until("the match", async () => (await recipe()) !== changed);
    // One gesture is one step of undo.
    await frame.locator(".sheet-tile.focused").focus();
    await page().keyboard.press("Control+z");
    await until("the text before the match", async () => (await recipe()) === changed);
  });

  it("is exported and put on a contact sheet", async () => {
    const { folder, window } = session();
    await window.openFile(`quay/${NAME}`);
    await page().keyboard.press("Control+s");
    begin("Export Roll…");
    await answer(`${join(folder, "quay")}/`);
    expect(await window.notification("frames of")).toContain(`${FRAMES} frames of`);
    const pictures = readdirSync(join(folder, "quay"), { recursive: true, encoding: "utf8" });
    expect(pictures.filter((name) => /quay-\d+\.\w+$/.test(name))).toHaveLength(FRAMES);
    await window.run("notifications.clearAll");
    begin("Draw Contact Sheet…");
    const file = join(folder, "quay", "quay-contact.jpg");
    await answer(file);
    expect(await window.notification("pixels")).toContain("is written");
    expect((await sharp(file).metadata()).format).toBe("jpeg");
    expect(readFileSync(written(), "utf8")).toContain("frames:");
  });

  it.each([
    ["dark", "Default Dark Modern", 1280, 720],
    ["light", "Default Light Modern", 1500, 950],
    ["contrast", "Default High Contrast", 1500, 950],
  ] as const)("looks right in %s", async (name, theme, width, height) => {
    const { server, picture } = session();
    await page().setViewportSize({ width, height });
    await server.exec(
      (vscode, to) => vscode.workspace.getConfiguration().update("workbench.colorTheme", to, true),
      theme,
    );
    await session().window.run("notifications.clearAll");
    // With the text in front, the palette offers what can be done with it.
    await session().window.openFile(`quay/${NAME}`);
    await palette("Open Roll Sheet");
    await sheet();
    await page().waitForTimeout(2500);
    await picture(`sheet-${name}`);
    expect(existsSync(`.cache/e2e-shots/sheet-${name}.png`)).toBe(true);
  });
});
