import { copyFileSync, readFileSync, truncateSync } from "node:fs";
import { join } from "node:path";
import type { Frame } from "playwright-core";
import { beforeAll, describe, expect, it } from "vitest";
import { files, putDustyScan, putScans, recipe, rollFile } from "./host/material/harbour.ts";
import { takePicture } from "./host/pictures.ts";
import { useSession } from "./host/session.ts";
import { packedExtension } from "./host/editor/vsix.ts";
import { LIMIT, until } from "./host/wait.ts";

/** Scans are decoded and measured: time enough for that on a machine that does other things too. */
const PATIENT = { limit: 90_000 };
const SOURCE = "Rollbook survey";

describe("the survey", () => {
  const session = useSession(() => ({
    vsix: [packedExtension("host")],
    folder: "Varnhaven",
    files,
    prepare(folder) {
      putScans(folder, true);
      putDustyScan(folder);
      // A card that was pulled out too early: frame 03 cannot be read.
      const broken = join(folder, "harbour/scans/H0003.dng");
      truncateSync(broken, Math.floor(readFileSync(broken).length / 3));
    },
    size: { width: 1360, height: 840 },
    settings: {
      "workbench.startupEditor": "none",
      "files.autoSave": "off",
      "editor.minimap.enabled": false,
    },
  }));

  let panel: Frame;
  const isReport = (): boolean => document.querySelector("main article") !== null;
  const places = () => panel.locator("article .place");
  const lineOf = (text: string, part: string): number => text.slice(0, text.indexOf(part)).split("\n").length;
  /** Line and code of what the survey says of the open text. */
  const found = async (): Promise<{ line: number; code: string | undefined; message: string }[]> =>
    (await session().text.problems())
      .filter(({ source }) => source === SOURCE)
      .map(({ line, code, message }) => ({ line, code, message }));
  const rows = () => session().window.page.locator(".pane:has(.title:text-is('Rolls')) .monaco-list-row");

  /** The roll as it is on disk, with the keyboard in it and the report beside it. */
  const inText = async (): Promise<void> => {
    const { window, text } = session();
    await window.run("workbench.action.focusFirstEditorGroup");
    await window.openFile(rollFile);
    await window.run("workbench.action.files.revert");
    await text.waitForText("the roll", (now) => now === recipe);
  };

  beforeAll(inText);

  it("measures the scans of the open roll, and leaves out the one that cannot be read", async () => {
    const { window } = session();
    await window.runFromPalette("Rollbook: Survey Scans");
    const message = await until(
      "the end of the survey",
      async () =>
        (await window.page.locator(".notification-list-item-message").allInnerTexts()).find((text) =>
          text.includes("scans surveyed"),
        ),
      PATIENT,
    );
    expect(message).toMatch(/^2 scans surveyed, \d+ findings\. Left out: 1\. .*H0003\.dng/);
    panel = await window.webview(isReport);
  });

  it("says at the frame's scan, and at the blank, what was found", async () => {
    await inText();
    const all = await until("the findings", async () => {
      const now = await found();
      return now.some(({ code }) => code === "dust") && now;
    });
    const dust = all.filter(({ code }) => code === "dust");
    expect(dust).toEqual([{ line: lineOf(recipe, "H0002.dng"), code: "dust", message: dust[0]!.message }]);
    expect(dust[0]!.message).toMatch(
      /specks lie on the film.* Measured \d+, limit 18 specks on a frame\. Blow or brush/,
    );
    expect(all.find(({ code }) => code === "sensor-dust")?.line).toBe(lineOf(recipe, "LIGHT.dng"));
    const entry = await session().server.exec(async (vscode) => {
      const [code] = vscode.languages
        .getDiagnostics(vscode.window.activeTextEditor!.document.uri)
        .flatMap((one) => (typeof one.code === "object" && one.code.value === "dust" ? [one.code] : []));
      return (await vscode.workspace.openTextDocument(code!.target)).getText();
    });
    expect(entry).toMatch(/^### dust\n\nSpecks and hairs lie on the film\./);
    const broken = all.filter(({ line }) => line === lineOf(recipe, "H0003.dng"));
    expect(broken.map(({ code }) => code)).toEqual([undefined]);
  });

  it("counts them in the Rolls view, and above the frame", async () => {
    const { window } = session();
    await window.run("rollbook.rolls.focus");
    await rows().first().locator(".monaco-tl-twistie").click();
    await until("the frames", async () => (await rows().count()) === 4);
    const shown = (await rows().allInnerTexts()).map((row) => row.replaceAll(/\s+/g, " ").trim());
    expect(shown[0]).toMatch(/3 frames · \d+ findings$/);
    expect(shown[2]).toMatch(/^02H0002\.dng · \d+ finding/);
    const lens = window.page.locator(".codelens-decoration a", { hasText: /^\d+ findings?$/ });
    expect(await lens.count()).toBeGreaterThan(0);
  });

  it("shows the places in pictures, and leads from there to the line", async () => {
    const { server, picture, window } = session();
    await window.run("notifications.clearAll");
    const dust = panel.locator("article", { hasText: "specks lie on the film" });
    expect(await dust.locator("svg circle").count()).toBeGreaterThan(18);
    const loaded = await dust.locator("image").evaluate(async (image) => {
      const copy = new Image();
      copy.src = image.getAttribute("href") ?? "";
      await copy.decode();
      return copy.naturalWidth;
    });
    expect(loaded).toBeGreaterThan(100);
    await picture("editor-survey");
    await dust.locator(".place").click();
    const line = (): Promise<string> =>
      server.exec((vscode) => {
        const editor = vscode.window.activeTextEditor;
        return editor?.document.lineAt(editor.selection.active.line).text ?? "";
      });
    await until("the frame's line", async () => (await line()).includes("H0002.dng"));
  });

  it("can be gone through with the keyboard", async () => {
    const { page } = session().window;
    await places().first().focus();
    await page.keyboard.press("ArrowDown");
    const at = await panel.evaluate(() => {
      const all = [...document.querySelectorAll("article .place")];
      return all.indexOf(document.activeElement as Element);
    });
    expect(at).toBe(1);
  });

  it("follows the text: lines that move, a frame that goes, and nothing twice", async () => {
    const { text } = session();
    await inText();
    const before = await found();
    await text.caret("title: Varnhaven");
    await text.type("# a remark\n\n");
    const lower = before.map((one) => ({ ...one, line: one.line + 2 }));
    await expect.poll(found, { timeout: LIMIT }).toEqual(lower);
    await inText();
    await text.replace("scan: H0002.dng", "skip: true");
    await until("no finding about a skipped frame", async () => !(await found()).some(({ code }) => code === "dust"));
    await inText();
    await until("the finding again", async () => (await found()).some(({ code }) => code === "dust"));
  });

  it("heals the dust with one quick fix, which is one step to undo", async () => {
    const { assistance, text } = session();
    await inText();
    const titles = await assistance.fixes("H0002.dng");
    expect(titles).toContainEqual(expect.stringMatching(/^Heal the dust on frame 02: \d+ spots$/));
    await takePicture(session().window.page, "editor-survey-fix", false);
    await session().window.page.keyboard.press("Escape");
    await assistance.fix(
      "H0002.dng",
      titles.find((title) => title.startsWith("Heal the dust on frame 02"))!,
    );
    await text.waitForText("the spots", (now) => /"02":\n {4}scan: H0002\.dng\n[^"]* {4}spots:\n {6}- \[0\./.test(now));
    await until("the finding gone", async () => !(await found()).some(({ code }) => code === "dust"));
    await text.undo();
    await text.waitForText("the roll", (now) => now === recipe);
  });

  it("forgets what it found in a scan that was replaced, and says so in the report", async () => {
    const { folder } = session();
    await until("the finding again", async () => (await found()).some(({ code }) => code === "dust"));
    copyFileSync(join(folder, "harbour/scans/H0001.dng"), join(folder, "harbour/scans/H0002.dng"));
    await until("no finding about the scan of old", async () => !(await found()).some(({ code }) => code === "dust"));
    await until("the notice", async () => (await panel.locator("#notices").innerText()).includes("Scans have changed"));
    expect(await panel.locator("article", { hasText: "specks lie on the film" }).count()).toBe(0);
  });

  it("comes back after the window was loaded again, without measuring again", async () => {
    const { window } = session();
    await inText();
    await window.reload();
    panel = await window.webview(isReport);
    expect(await panel.locator("h1").innerText()).toBe("Survey: Varnhaven, first light");
    await window.openFile(rollFile);
    await until("the findings", async () => (await found()).some(({ code }) => code === "sensor-dust"));
    expect(await window.page.locator(".notification-list-item-message").count()).toBe(0);
  });

  it("proposes the dust in the preview, to be accepted there one by one", async () => {
    const { window, picture, folder } = session();
    putDustyScan(folder);
    await inText();
    await window.server.exec(
      (vscode, path) => vscode.commands.executeCommand("rollbook.openPreview", vscode.Uri.file(path), "02"),
      join(folder, rollFile),
    );
    const preview = await window.webview(() => document.querySelector("[data-section=proposals]") !== null);
    // The dusty scan is not the one that was surveyed last: the panel offers to survey it.
    await preview.getByRole("button", { name: "Survey the scans" }).click();
    const rows = preview.locator("[data-section=proposals] li");
    await until("proposals", async () => (await rows.count()) > 0, PATIENT);
    await window.run("notifications.clearAll");
    await rows.nth(1).hover();
    const count = await rows.count();
    expect(count).toBeGreaterThan(18);
    await until("the rings", async () => (await preview.locator("circle.proposal").count()) === count, PATIENT);
    await picture("preview-proposals");
    await rows.nth(1).getByRole("button", { name: "Accept" }).click();
    const written = (): Promise<string> =>
      window.server.exec(
        (vscode) => vscode.workspace.textDocuments.find((one) => one.uri.path.endsWith(".roll.yaml"))?.getText() ?? "",
      );
    await until("one spot in the text", async () =>
      /"02":\n {4}scan: H0002\.dng\n[^"]* {4}spots: \[\[0\./.test(await written()),
    );
    await until("the list without it", async () => (await rows.count()) === count - 1);
  });
});
