import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import type { Frame } from "playwright-core";
import { beforeAll, describe, expect, it } from "vitest";
import { launch } from "../browser/chromium.ts";
import { files, putScans, rollFile } from "./host/material/harbour.ts";
import { takePicture } from "./host/pictures.ts";
import { useSession } from "./host/session.ts";
import { packedExtension } from "./host/editor/vsix.ts";
import { until } from "./host/wait.ts";

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
    size: { width: 1360, height: 840 },
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
  const row = (name: string) => panel.locator(".details tbody tr", { hasText: name });

  it("opens on what is not committed, and shows the frame that changed", async () => {
    const { page } = session().window;
    await page.locator(".quick-input-list .monaco-list-row", { hasText: "What is not committed" }).first().click();
    panel = await session().window.webview(() => document.querySelector("#review .stage") !== null);
    await expect.poll(() => panel.locator("h2").textContent(), PATIENT).toBe("Frame 03");
    expect((await rows()).length).toBe(2);
    expect(await row("exposure+0.00").innerText()).toMatch(/\+0\.00 EV\s+\+0\.50 EV\s+own value; was the default/);
    await expect.poll(() => panel.locator(".pane img:not([hidden])").count(), PATIENT).toBe(2);
  });

  it("takes one change back as an edit of the text, and leaves the other", async () => {
    await row("yellow").getByRole("button", { name: "Revert" }).click();
    await expect.poll(text, PATIENT).toContain("positive: { exposure: 0.5 }");
    await expect.poll(() => row("yellow").count(), PATIENT).toBe(0);
    expect(await row("exposure+0.00").count()).toBe(1);
  });

  it("writes notes into the recipe: on the frame, and behind it on one value", async () => {
    const { page } = session().window;
    const box = page.locator(".quick-input-widget input");
    await panel.locator(".details header").getByRole("button", { name: "Note…" }).click();
    await box.waitFor();
    await box.fill("lift the quay");
    await page.keyboard.press("Enter");
    await expect.poll(text, PATIENT).toContain("note: lift the quay");
    await expect.poll(() => row("“lift the quay”").count(), PATIENT).toBe(1);
    await row("exposure+0.00").getByRole("button", { name: "Note…" }).click();
    await expect.poll(() => box.inputValue()).toBe("lift the quay; exposure: ");
    await page.keyboard.type("half a stop");
    await page.keyboard.press("Enter");
    await expect.poll(text, PATIENT).toContain('"lift the quay; exposure: half a stop"');
  });

  it("goes to the line in the comparison of the texts", async () => {
    await expect.poll(() => row("half a stop").count(), PATIENT).toBe(1);
    await row("exposure+0.00").getByRole("button", { name: "Text" }).click();
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
    // The place where the branch began stands first.
    const revisions = page.locator(".quick-input-list .monaco-list-row");
    await revisions.filter({ hasText: "merge base with main" }).first().waitFor();
    expect(await revisions.first().innerText()).toMatch(/merge base with main[\s\S]*Start the roll/);
    await revisions.first().click();
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

  it("compares one frame with the last commit, as the action above a frame does", async () => {
    await session().server.exec(async (vscode, file) => {
      await vscode.commands.executeCommand("workbench.action.closeAllEditors");
      const folder = vscode.workspace.workspaceFolders?.[0];
      if (!folder) throw new Error("No folder is open.");
      await vscode.commands.executeCommand("rollbook.compareFrame", vscode.Uri.joinPath(folder.uri, file), "03");
    }, rollFile);
    panel = await session().window.webview(() => document.querySelector("#review h2") !== null);
    await expect.poll(() => panel.locator("h2").textContent(), PATIENT).toBe("Frame 03");
    await expect.poll(() => row("exposure+0.00").count(), PATIENT).toBe(1);
  });

  it("says of a frame that did not change that it did not", async () => {
    await session().server.exec(async (vscode, file) => {
      await vscode.commands.executeCommand("workbench.action.closeAllEditors");
      const folder = vscode.workspace.workspaceFolders?.[0];
      if (!folder) throw new Error("No folder is open.");
      await vscode.commands.executeCommand("rollbook.compareFrame", vscode.Uri.joinPath(folder.uri, file), "01");
    }, rollFile);
    panel = await session().window.webview(() => document.querySelector("#review .details .note") !== null);
    await expect
      .poll(() => panel.locator(".details").innerText(), PATIENT)
      .toMatch(/^Frame 01 did not change: HEAD \([0-9a-f]+\) and the working tree state the same values\.$/);
    await session().picture("review-unchanged");
    await session().server.exec(async (vscode, file) => {
      await vscode.commands.executeCommand("workbench.action.closeAllEditors");
      const folder = vscode.workspace.workspaceFolders?.[0];
      if (!folder) throw new Error("No folder is open.");
      await vscode.commands.executeCommand("rollbook.compareFrame", vscode.Uri.joinPath(folder.uri, file), "03");
    }, rollFile);
    panel = await session().window.webview(() => document.querySelector("#review h2") !== null);
    await expect.poll(() => panel.locator("h2").textContent(), PATIENT).toBe("Frame 03");
  });

  it("is as it was after it was hidden and shown, and comes back after the window was loaded again", async () => {
    const { window } = session();
    const isThere = async (): Promise<void> => {
      panel = await window.webview(() => document.querySelector("#review h2") !== null);
      await expect.poll(() => panel.locator("h2").textContent(), PATIENT).toBe("Frame 03");
    };
    await panel.locator(".modes button", { hasText: "Difference" }).click();
    await window.openFile(stockFile);
    await window.run("workbench.action.closeActiveEditor");
    await isThere();
    await expect.poll(() => panel.locator(".modes [aria-pressed=true]").textContent()).toBe("Difference");
    await window.reload();
    await window.showTab("Review:");
    await isThere();
    await expect.poll(() => panel.locator(".modes [aria-pressed=true]").textContent()).toBe("Difference");
  });

  it("is begun from the file's timeline too", async () => {
    const { window } = session();
    const { page } = window;
    await window.openFile(rollFile);
    await window.run("timeline.focus");
    const row = page.locator(".pane:has(.title:text-is('Timeline')) .monaco-list-row", { hasText: "Start the roll" });
    await row.first().click({ button: "right" });
    const item = page.locator(".monaco-menu .action-item", { hasText: "Compare with Revision…" }).first();
    await item.waitFor();
    // A menu takes no click in its first moments.
    await until("the menu to take the click", async () => {
      await item.click({ timeout: 2000 }).catch(() => undefined);
      return !(await item.isVisible());
    });
    const title = page.locator(".quick-input-title");
    await title.waitFor();
    expect(await title.innerText()).toBe(`Compare ${rollFile} with…`);
    await page.keyboard.press("Escape");
  });

  it("says the same from the command, as one page", async () => {
    const { folder } = session();
    const out = join(folder, "..", "review.html");
    const program = resolve(import.meta.dirname, "../../dist/rollbook.mjs");
    const printed = execFileSync(process.execPath, [program, "review", "main", "--html", out], { cwd: folder });
    expect(printed.toString()).toContain("contrast 1.35 → 1.60 (from the stock); all 3 frames follow");
    const browser = await launch();
    try {
      const page = await browser.newPage({ viewport: { width: 1120, height: 720 }, colorScheme: "light" });
      await page.goto(pathToFileURL(out).href);
      await page.keyboard.press("d");
      await expect.poll(() => page.locator(".pane img:not([hidden])").count()).toBe(1);
      await takePicture(page, "review-report");
    } finally {
      await browser.close();
    }
  });
});
