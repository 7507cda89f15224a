/**
 * The whole job in the roll sheet, with the keyboard alone: 36 scans become a roll, its pictures and a contact sheet. Every
 * step is a key that a person presses; what the page shows is looked at, and never moved or filled in by the test.
 */
import { existsSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import type { Frame } from "playwright-core";
import sharp from "sharp";
import { beforeAll, describe, expect, it } from "vitest";
import { makeRoll } from "../bench/synthetic-roll.ts";
import { packedExtension } from "./host/editor/vsix.ts";
import { drawAllScans, putAllScans, rollFile, wholeRoll } from "./host/material/harbour.ts";
import { stock, stockFile } from "./host/material/rolls.ts";
import { useSession } from "./host/session.ts";
import { until } from "./host/wait.ts";

const FRAMES = 36;
const NAME = "quay.roll.yaml";
/** 36 scans are decoded on a machine that does other things too. */
const PATIENT = { limit: 180_000 };

describe("a folder of 36 scans, by the keyboard alone", () => {
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
  const press = (key: string): Promise<void> => page().keyboard.press(key);
  const widget = () => page().locator(".quick-input-widget").first();
  const typed = (): Promise<string> => widget().locator("input").first().inputValue();
  const row = async (): Promise<string | undefined> =>
    (await widget().locator(".monaco-list-row.focused .label-name").allInnerTexts())[0];
  const isAsking = (): Promise<boolean> => widget().isVisible();

  /** Types into the list that is open until the row with the focus is the one that is meant, and takes it. */
  const choose = async (label: string): Promise<void> => {
    await until("a list", isAsking, PATIENT);
    await page().keyboard.type(label);
    await until(`the row ${label}`, async () => (await row()) === label, PATIENT);
    await press("Enter");
  };
  /** Runs a command from the palette. */
  const command = async (title: string): Promise<void> =>
    void (await until(
      `${title} in the palette`,
      async () => {
        await press("F1");
        await until("the palette", async () => (await isAsking()) && (await typed()).startsWith(">"));
        await page().keyboard.type(`Rollbook: ${title}`);
        const isThere = await until("the row", async () => (await row()) === `Rollbook: ${title}`, {
          limit: 8000,
        }).catch(() => false);
        await press(isThere ? "Enter" : "Escape");
        return isThere;
      },
      PATIENT,
    ));
  /** Takes the file or folder that a dialog proposes. */
  const accept = async (proposed: string): Promise<void> => {
    await until(`a dialog that proposes ${proposed}`, async () => (await typed()).includes(proposed), PATIENT);
    await until(
      "the dialog to close",
      async () => {
        await press("Enter");
        await page().waitForTimeout(1000);
        return !(await isAsking()) || !(await typed()).includes(proposed);
      },
      PATIENT,
    );
  };
  const sheet = (): Promise<Frame> =>
    session().window.webview(() => document.querySelector(".sheet .sheet-tile.pictured") !== null);
  /** Goes on with Tab until the element with the focus fits a selector. */
  const tabTo = async (frame: Frame, selector: string, key = "Tab"): Promise<void> => {
    const isThere = (): Promise<boolean> =>
      frame.evaluate((wanted) => document.activeElement?.closest(wanted) !== null && document.hasFocus(), selector);
    for (let k = 0; k < 60 && !(await isThere()); k++) await press(key);
    expect([selector, await isThere()]).toEqual([selector, true]);
  };
  const written = (): string => join(session().folder, "quay", NAME);
  const recipe = (): Promise<string> =>
    session().server.exec(
      (vscode) => vscode.workspace.textDocuments.find((d) => d.uri.path.endsWith("quay.roll.yaml"))?.getText() ?? "",
    );
  const EXPOSURE = /\n {2}"\d+":[^"]*?exposure: (-?[\d.]+)/g;
  const exposures = async (): Promise<number[]> => [...(await recipe()).matchAll(EXPOSURE)].map(([, v]) => Number(v));

  it("becomes a roll", async () => {
    await page().locator(".monaco-workbench").waitFor();
    await command("New Roll from Scans…");
    await choose("Northlight 400");
    await choose("quay/scans");
    await until("the proposed name", async () => (await typed()) === NAME, PATIENT);
    await press("Enter");
    await until("the recipe", async () => existsSync(written()), PATIENT);
    expect(await session().window.notification("frames created")).toContain(`${FRAMES} frames created.`);
    await session().window.waitForEditor(NAME);
  });

  it("is shown in one sheet, changed on a selection and matched, each with one edit", async () => {
    await command("Open Roll Sheet");
    const frame = await sheet();
    await until("all tiles in view", async () => {
      const [drawn, all] = await frame.evaluate(() => [
        document.querySelectorAll(".sheet-tile.pictured:not([hidden])").length,
        document.querySelectorAll(".sheet-tile:not([hidden])").length,
      ]);
      return drawn! > 10 && drawn === all;
    });
    // The sheet that was opened has the keyboard, on a frame.
    await until("the focus on a frame", () =>
      frame.evaluate(() => document.hasFocus() && document.activeElement?.closest(".sheet-tile") !== null),
    );
    const was = await exposures();
    await press("Home");
    await press("Space");
    for (let k = 0; k < 3; k++) await press("Shift+ArrowRight");
    await until("four frames", async () => (await frame.locator(".side h2").innerText()) === "4 frames");
    await tabTo(frame, '[data-control="exposure"] .slider:not([hidden]) input[type="range"]');
    for (let k = 0; k < 30; k++) await press("ArrowRight");
    // On a busy machine the keys may come in more than one run, each an edit of its own.
    const steps = async () => (await exposures()).map((v, i) => Math.round(100 * (v - was[i]!)));
    await until("the change", async () => (await steps()).slice(0, 4).every((step) => step === 30), PATIENT);
    expect((await steps()).slice(4).every((step) => step === 0)).toBe(true);

    const changed = await recipe();
    await tabTo(frame, ".sheet-tile", "Shift+Tab");
    const apply = ".offer vscode-button";
    await press("m");
    await until(
      "the match with the focus on Apply",
      () => frame.evaluate((button) => document.activeElement?.closest(button) !== null, apply),
      PATIENT,
    );
    expect(await recipe()).toBe(changed);
    await press("Enter");
    await until("the match", async () => (await recipe()) !== changed);
    // Answered, the keyboard is in the grid again; one gesture is one step of undo.
    await until("the focus on a frame", () =>
      frame.evaluate(() => document.activeElement?.closest(".sheet-tile") !== null),
    );
    await press("Control+z");
    await until("the text before the match", async () => (await recipe()) === changed);
    await press("Control+y");
    await until("the match again", async () => (await recipe()) !== changed);
  });

  it("is exported and put on a contact sheet, with the sheet in front", async () => {
    const { folder } = session();
    await command("Export Roll…");
    await accept("/quay");
    const isSaid = (text: string) => async (): Promise<boolean> =>
      (await page().locator(".notification-list-item-message", { hasText: text }).count()) > 0;
    await until("all pictures", isSaid(`${FRAMES} frames of`), PATIENT);
    const pictures = readdirSync(join(folder, "quay"), { recursive: true, encoding: "utf8" });
    expect(pictures.filter((name) => /quay-\d+\.\w+$/.test(name))).toHaveLength(FRAMES);
    await command("Draw Contact Sheet…");
    await accept("quay-contact.jpg");
    await until("the contact sheet", isSaid("is written: "), PATIENT);
    const file = join(folder, "quay", "quay-contact.jpg");
    expect((await sharp(file).metadata()).format).toBe("jpeg");
    // Beside the recipe lies what was asked for, and at the top of the workspace nothing new.
    expect(readdirSync(folder).toSorted()).toEqual(["quay", stockFile.split("/")[0]!].toSorted());
    expect(readFileSync(written(), "utf8")).toContain("frames:");
  });
});

describe("the sheet of the demo's roll", () => {
  beforeAll(drawAllScans, 600_000);
  const session = useSession(() => ({
    vsix: [packedExtension("host")],
    folder: "Varnhaven",
    files: wholeRoll(),
    prepare: putAllScans,
    size: { width: 1280, height: 720 },
    settings: { "workbench.startupEditor": "none", "workbench.activityBar.location": "hidden" },
  }));

  it.each([
    ["dark", "Default Dark Modern", 1280, 720],
    ["light", "Default Light Modern", 1280, 720],
    ["contrast", "Default High Contrast", 1280, 720],
    ["dark-large", "Default Dark Modern", 1500, 950],
    ["light-large", "Default Light Modern", 1500, 950],
    ["contrast-large", "Default High Contrast", 1500, 950],
  ] as const)("looks right: %s", async (name, theme, width, height) => {
    const { server, window, picture } = session();
    const { page } = window;
    await page.setViewportSize({ width, height });
    await server.exec(
      (vscode, to) => vscode.workspace.getConfiguration().update("workbench.colorTheme", to, true),
      theme,
    );
    if (name === "dark") {
      await window.run("workbench.action.closeSidebar");
      await window.openFile(rollFile);
      await window.runFromPalette("Rollbook: Open Roll Sheet");
    }
    const frame = await window.webview(() => document.querySelector(".sheet .sheet-tile.pictured") !== null);
    const isDrawn = (): Promise<boolean> =>
      frame.evaluate(
        () =>
          document.querySelectorAll(".sheet-tile:not([hidden])").length ===
          document.querySelectorAll(".pictured").length,
      );
    await until("all tiles", isDrawn, PATIENT);
    if (name === "dark") {
      await frame.locator('[data-frame="02"]').click();
      await page.keyboard.press("Shift+ArrowRight");
      await page.keyboard.press("m");
      await frame.locator(".offer").waitFor();
      await page.waitForTimeout(1000);
      await picture("sheet-match");
      await page.keyboard.press("Escape");
      await frame.locator(".offer").waitFor({ state: "hidden" });
    }
    await page.waitForTimeout(2000);
    await picture(`sheet-${name}`);
    expect(await isDrawn()).toBe(true);
    // Nothing is cut off at the side, and the whole of what is done with the selection can be reached.
    const overflow = await frame.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
    );
    expect(overflow).toBeLessThanOrEqual(0);
  });
});
