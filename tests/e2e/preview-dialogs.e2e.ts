/** What the preview asks for in the editor's own dialogs: export of a frame, and copying its values to others. */
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Frame } from "playwright-core";
import sharp from "sharp";
import { beforeEach, describe, expect, it } from "vitest";
import { harbourSession, recipe, rollFile } from "./host/material/harbour.ts";
import { useSession } from "./host/session.ts";
import { LIMIT, until } from "./host/wait.ts";

/** A frame decodes, and its proxy travels to the panel: time enough for that on a machine that does other things too. */
const PATIENT = { limit: 60_000 };

describe("the preview's dialogs", () => {
  const session = useSession(() => harbourSession());
  let panel: Frame;

  const text = (): Promise<string> =>
    session().server.exec(
      (vscode) => vscode.workspace.textDocuments.find((d) => d.uri.path.endsWith(".roll.yaml"))?.getText() ?? "",
    );
  const replaceText = (next: string): Promise<unknown> =>
    session().server.exec(async (vscode, wanted) => {
      const document = vscode.workspace.textDocuments.find((d) => d.uri.path.endsWith(".roll.yaml"));
      if (!document) throw new Error("The roll is not open.");
      const edit = new vscode.WorkspaceEdit();
      edit.replace(document.uri, new vscode.Range(0, 0, document.lineCount, 0), wanted);
      await vscode.workspace.applyEdit(edit);
      await document.save();
    }, next);
  const widget = () => session().window.page.locator(".quick-input-widget").first();
  const input = () => widget().locator(".quick-input-box input").first();

  /** A text that is replaced leaves its cursor, and the panel with it, at its end. */
  async function toFirst(): Promise<void> {
    const name = () => panel.locator(".frame-name").textContent();
    await until("a frame", async () => /\d/.test((await name()) ?? ""), PATIENT);
    await until("frame 01", async () => {
      await panel.evaluate(() => document.querySelector<HTMLElement>(".tile")?.click());
      return (await name()) === "01";
    });
  }

  beforeEach(async () => {
    const { window } = session();
    if (await widget().isVisible()) await window.page.keyboard.press("Escape");
    await window.openFile(rollFile);
    await replaceText(recipe);
    await window.run("rollbook.openPreview");
    panel = await window.webview(() => document.querySelector("#panel .stage") !== null);
    await toFirst();
    await until("its picture", async () => (await panel.locator(".notices .busy").count()) === 0, PATIENT);
  });

  /** Presses Export and answers the dialog, which is in the page, with a folder. */
  async function exportTo(folder: string): Promise<void> {
    await panel.locator("vscode-button", { hasText: "Export…" }).click();
    await input().waitFor({ state: "visible" });
    // The dialog writes its own folder into the field once it has looked at it.
    await until("the dialog's first folder", async () => (await input().inputValue()).includes("Varnhaven"));
    await until("the dialog to rest", async () => {
      // On a busy machine it writes its own folder once more, over what was typed.
      if ((await input().inputValue()) !== `${folder}/`) await input().fill(`${folder}/`);
      await session().window.page.waitForTimeout(400);
      return (await input().inputValue()) === `${folder}/`;
    });
    // While it still reads a folder the dialog takes no Enter.
    await until("the dialog to close", async () => {
      if (await widget().isHidden()) return true;
      await input().press("Enter", { timeout: 1000 });
      await session().window.page.waitForTimeout(1000);
      return widget().isHidden();
    });
  }

  it("exports the frame, as the recipe says, into a folder that is asked for", async () => {
    const { folder, window, picture } = session();
    const out = join(folder, "out");
    mkdirSync(out, { recursive: true });
    await exportTo(out);
    const file = join(out, "web", "harbour-01.jpg");
    expect(await window.notification("is written")).toContain("Frame 01 is written: web/harbour-01.jpg");
    const { format, width, height } = await sharp(file).metadata();
    expect(format).toBe("jpeg");
    // The scans are smaller than the 2000 pixels of the recipe's output, or just as large: the crop is 3 : 2.
    expect(Math.max(width, height)).toBeLessThanOrEqual(2000);
    expect(width / height).toBeCloseTo(1.5, 1);
    const { channels } = await sharp(file).stats();
    expect(channels[1].stdev).toBeGreaterThan(20);
    await expect.poll(() => panel.locator(".live[role=status]").textContent()).toBe("Files written: 1");
    expect(await text()).toBe(recipe);
    await picture("preview-exported");
  });

  it("asks before it writes over a picture that is not its own", async () => {
    const { folder, window } = session();
    const out = join(folder, "other");
    const file = join(out, "web", "harbour-01.jpg");
    mkdirSync(join(out, "web"), { recursive: true });
    writeFileSync(file, "somebody's");
    await exportTo(out);
    const dialog = window.page.locator(".monaco-dialog-box");
    await dialog.waitFor({ state: "visible" });
    expect(await dialog.innerText()).toContain("that this roll did not write");
    await dialog.getByRole("button", { name: "Cancel" }).click();
    await dialog.waitFor({ state: "hidden" });
    expect(readFileSync(file, "utf8")).toBe("somebody's");
    expect(existsSync(join(out, "web"))).toBe(true);
    await exportTo(out);
    await dialog.getByRole("button", { name: "Replace" }).click();
    await until("the picture", async () => readFileSync(file).subarray(0, 2).toString("hex") === "ffd8");
  });

  it("copies a frame's own values to others, in one step of undo", async () => {
    const { window } = session();
    const own = recipe.replace(
      "tilt: -0.4 }",
      "tilt: -0.4 }\n    positive: { exposure: 0.25, filtration: { magenta: 4 }, contrast: 1.7 }",
    );
    await replaceText(own);
    await toFirst();
    await expect
      .poll(() => panel.locator("[data-control=contrast] input[type=number]").inputValue(), { timeout: LIMIT })
      .toBe("1.70");
    const row = (label: string) => widget().locator(".monaco-list-row", { hasText: label }).first();
    // The list goes when something else takes the focus, as the text may that was replaced a moment ago.
    await until("the list of values", async () => {
      if (!(await widget().isVisible())) await panel.locator("vscode-button", { hasText: "Copy…" }).click();
      await row("Filtration").waitFor({ timeout: 5000 });
      return true;
    });
    // Exposure belongs to one picture, so it is offered but not chosen.
    const checked = (label: string) => row(label).locator("[aria-checked=true], input:checked").count();
    expect([(await checked("Exposure")) > 0, (await checked("Filtration")) > 0, (await checked("Tone")) > 0]).toEqual([
      false,
      true,
      true,
    ]);
    const choose = async (label: string): Promise<void> => {
      await row(label).locator(".label-name").click();
      await until(`${label} to be chosen`, async () => (await checked(label)) > 0);
    };
    await input().press("Enter");
    await row("H0003.dng").waitFor();
    await choose("H0002.dng");
    await choose("H0003.dng");
    await input().press("Enter");
    await widget().waitFor({ state: "hidden" });
    const copied = "positive: { filtration: { magenta: 4 }, contrast: 1.7 }";
    await expect.poll(async () => (await text()).split(copied).length - 1, { timeout: LIMIT }).toBe(2);
    await expect.poll(() => panel.locator(".live[role=status]").textContent()).toBe("Copied to frames: 02, 03");
    const now = await text();
    expect(now.replaceAll(`\n    ${copied}`, "")).toBe(own);
    await panel.locator(".stage").focus();
    await window.page.keyboard.press("Control+z");
    await expect.poll(text, { timeout: LIMIT }).toBe(own);
  });
});
