import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Frame } from "playwright-core";
import { beforeAll, describe, expect, it } from "vitest";
import { files, putScans, rollFile } from "./host/harbour.ts";
import { useSession } from "./host/session.ts";
import { packedExtension } from "./host/vsix.ts";

/** Frames are decoded twice and encoded: time enough for that on a machine that does other things too. */
const PATIENT = { timeout: 60_000 };
const stockFile = "stocks/northlight-400.stock.yaml";

/** Two commits on main, a branch that prints the stock harder, and a frame that is lighter but not committed. */
function prepare(folder: string): void {
  putScans(folder);
  const git = (...args: string[]): void =>
    void execFileSync("git", ["-c", "user.name=Test", "-c", "user.email=test@example.org", ...args], { cwd: folder });
  const swap = (file: string, from: string, to: string): void => {
    const path = join(folder, file);
    writeFileSync(path, readFileSync(path, "utf8").replace(from, to));
  };
  writeFileSync(join(folder, ".gitignore"), "scans/\n");
  git("init", "-q", "-b", "main");
  git("add", ".");
  git("commit", "-q", "-m", "Start the roll");
  git("checkout", "-q", "-b", "harder");
  swap(stockFile, "contrast: 1.35", "contrast: 1.6");
  git("commit", "-q", "-a", "-m", "Print Northlight harder");
  swap(rollFile, "scan: H0003.dng", "scan: H0003.dng\n    positive: { exposure: 0.5, filtration: { yellow: 8 } }");
}

describe("the review", () => {
  const session = useSession(() => ({
    vsix: [packedExtension("host")],
    folder: "Varnhaven",
    files,
    prepare,
    size: { width: 1500, height: 940 },
    settings: { "workbench.colorTheme": "Default Dark Modern", "workbench.startupEditor": "none" },
  }));
  let panel: Frame;
  beforeAll(async () => {
    const { window } = session();
    await window.openFile(rollFile);
    // The command goes on until somebody has chosen.
    void window.run("rollbook.reviewChanges").catch(() => undefined);
  });

  const text = (): Promise<string> =>
    session().server.exec(
      (vscode) => vscode.workspace.textDocuments.find((d) => d.uri.path.endsWith(".roll.yaml"))?.getText() ?? "",
    );
  const rows = (): Promise<string[]> => panel.locator(".list [role=option]").allInnerTexts();
  const row = (name: string) => panel.locator("tbody tr", { hasText: name });

  it("opens on what is not committed, and shows the frame that changed", async () => {
    const { page } = session().window;
    await page.locator(".quick-input-list .monaco-list-row", { hasText: "What is not committed" }).first().click();
    panel = await session().window.webview(() => document.querySelector("#review .stage") !== null);
    await expect.poll(() => panel.locator("h2").textContent(), PATIENT).toBe("Frame 03");
    expect((await rows()).length).toBe(2);
    expect(await row("exposure").innerText()).toMatch(/\+0\.00 EV\s+\+0\.50 EV\s+own value; was the default/);
    await expect.poll(() => panel.locator(".pane img:not([hidden])").count(), PATIENT).toBe(2);
  });

  it("takes one change back as an edit of the text, and leaves the other", async () => {
    await row("yellow").getByRole("button", { name: "Take back" }).click();
    await expect.poll(text, PATIENT).toContain("positive: { exposure: 0.5 }");
    await expect.poll(() => row("yellow").count(), PATIENT).toBe(0);
    expect(await row("exposure").count()).toBe(1);
  });

  it("writes a note into the recipe", async () => {
    const { page } = session().window;
    await panel.getByRole("button", { name: "Note…" }).click();
    const box = page.locator(".quick-input-widget input");
    await box.waitFor();
    await box.fill("lift the quay");
    await page.keyboard.press("Enter");
    await expect.poll(text, PATIENT).toContain("note: lift the quay");
  });

  it("goes to the line in the comparison of the texts", async () => {
    await expect.poll(() => row("note").count(), PATIENT).toBe(1);
    await row("exposure").getByRole("button", { name: "Text" }).click();
    await session().window.page.locator(".monaco-diff-editor").first().waitFor();
    const line = (): Promise<string> =>
      session().server.exec((vscode) => {
        const editor = vscode.window.activeTextEditor;
        return editor?.document.lineAt(editor.selection.active.line).text ?? "";
      });
    await expect.poll(line, PATIENT).toContain("exposure: 0.5");
  });

  it("follows a branch's stock to every frame", async () => {
    const { page } = session().window;
    await session().window.openFile(rollFile);
    void session()
      .window.run("rollbook.reviewChanges")
      .catch(() => undefined);
    await page.locator(".quick-input-list .monaco-list-row", { hasText: "since it left another" }).first().click();
    await page.locator(".quick-input-list .monaco-list-row", { hasText: "main" }).first().click();
    await expect
      .poll(async () => {
        const frames = page.frames();
        for (const frame of frames)
          if (
            (await frame
              .locator(".list .recipe")
              .count()
              .catch(() => 0)) === 2
          )
            return (panel = frame) !== undefined;
        return false;
      }, PATIENT)
      .toBe(true);
    expect((await rows()).map((name) => name.replaceAll("\n", " "))[0]).toContain("3 frames in 1 roll");
    await session().picture("review-panel");
  });
});
