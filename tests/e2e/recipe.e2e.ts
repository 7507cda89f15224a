import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeEach, describe, expect, it } from "vitest";
import { files, quiet, roll, rollFile, stock, stockFile } from "./host/material/rolls.ts";
import { useSession } from "./host/session.ts";
import { packedExtension } from "./host/editor/vsix.ts";
import { LIMIT, until } from "./host/wait.ts";

const size = { width: 1200, height: 760 };

describe("a roll in the editor", () => {
  const session = useSession(() => ({
    vsix: [packedExtension("host")],
    folder: "Fotos für Rollbook",
    files,
    size,
    settings: quiet,
  }));

  /** Every test begins with the roll as it is on disk. */
  beforeEach(async () => {
    const { window, server, text, folder } = session();
    // Moves are saved by the editor itself, as refactorings are.
    for (const [path, content] of [
      [rollFile, roll],
      [stockFile, stock],
    ] as const)
      if (readFileSync(join(folder, path), "utf8") !== content) writeFileSync(join(folder, path), content);
    await server.exec(async (vscode) => {
      for (const document of vscode.workspace.textDocuments.filter(
        (one) => one.isDirty && /(roll|stock).yaml$/.test(one.uri.path),
      )) {
        await vscode.window.showTextDocument(document);
        await vscode.commands.executeCommand("workbench.action.files.revert");
      }
      await vscode.commands.executeCommand("workbench.action.closeAllEditors");
    });
    await window.openFile(rollFile);
    await text.waitForText("the roll", (now) => now === roll);
  });

  it("is listed with its frames, and with the scans that are not there", async () => {
    const { window, server, picture, folder } = session();
    await window.run("rollbook.rolls.focus");
    const rows = window.page.locator(".pane:has(.title:text-is('Rolls')) .monaco-list-row");
    await rows.first().locator(".monaco-tl-twistie").click();
    await until("the frames", async () => (await rows.count()) === 4);
    expect((await rows.allInnerTexts()).map((row) => row.replaceAll(/\s+/g, " ").trim())).toEqual([
      "Harbour, first light3 frames",
      "01H0001.dng",
      "02H0002.dng",
      "03H0003.dng",
    ]);

    await server.exec(
      async (vscode, path) => vscode.workspace.fs.delete(vscode.Uri.file(path)),
      join(folder, "Rolls/scans/H0002.dng"),
    );
    await until("the missing scan", async () => (await rows.nth(2).innerText()).includes("scan missing"));
    await rows.nth(2).click();
    await picture("editor-rolls");
    await server.exec(
      async (vscode, path) => vscode.workspace.fs.writeFile(vscode.Uri.file(path), new Uint8Array()),
      join(folder, "Rolls/scans/H0002.dng"),
    );
    await until("the scan again", async () => !(await rows.nth(2).innerText()).includes("scan missing"));
  });

  it("says in the status bar how many frames there are, and whether something is wrong", async () => {
    const { window, text } = session();
    await expect.poll(() => window.statusBar(), { timeout: LIMIT }).toContainEqual(expect.stringContaining("3 frames"));
    await text.replace("contrast: 1.7", "contrast: 17");
    const wrong = window.page.locator(".statusbar-item", { hasText: "3 frames" }).locator(".codicon-error");
    await wrong.waitFor();
    await text.undo();
  });

  it("underlines exactly what is wrong, and links to its explanation", async () => {
    const { text, window, picture } = session();
    await text.replace("filtration", "filtraton");
    // What the test before undid may be shown a moment longer.
    const [found] = await text.waitForProblems(
      "the misspelt key alone",
      (all) => all.length === 1 && all[0].code === "unknown-key",
    );
    expect(found).toMatchObject({
      code: "unknown-key",
      text: "filtraton",
      line: 12,
      column: 3,
      severity: "error",
      source: "Rollbook",
    });
    const word = await text.boxOf("filtraton");
    const squiggle = await until("the squiggle", async () =>
      (await text.squiggles()).find((box) => box.bottom >= word.bottom && box.top <= word.bottom),
    );
    expect(Math.abs(squiggle.left - word.left)).toBeLessThanOrEqual(2);
    expect(Math.abs(squiggle.right - word.right)).toBeLessThanOrEqual(2);

    await text.caret("filtraton");
    await window.run("editor.action.showHover");
    const link = window.page.locator(".monaco-hover a", { hasText: "unknown-key" }).first();
    await link.waitFor();
    await picture("editor-problem");
    await link.click();
    await window.waitForEditor("unknown-key.md");
    const entry = await text.waitForText("the entry", (now) => now.startsWith("### unknown-key\n"));
    expect(entry).toMatch(/^### unknown-key\n\nError\. /);

    // The whole page, as a reader sees it.
    await window.run("rollbook.explainProblem", "scan-used-twice");
    await window.waitForEditor("Preview diagnostics.md");
    const page = await window.webview(() => document.body.innerText.includes("scan-used-twice"));
    await until("the entry in view", () =>
      page.evaluate(() => {
        const heading = [...document.querySelectorAll("h3")].find((one) => one.textContent === "scan-used-twice");
        const top = heading?.getBoundingClientRect().top ?? Infinity;
        return top >= -40 && top < globalThis.innerHeight;
      }),
    );
  });

  it("corrects the error, and takes the correction back", async () => {
    const { text, assistance, picture, window } = session();
    await text.replace("filtration", "filtraton");
    await text.waitForProblems("the misspelt key", (all) => all.length > 0);
    expect((await assistance.fixes("filtraton"))[0]).toBe("Change to filtration");
    await picture("editor-fix");
    await assistance.dismiss();
    await assistance.fix("filtraton", "Change to filtration");
    await text.waitForText("the corrected key", (now) => now === roll);
    await text.waitForProblems("no problem", (all) => all.length === 0);
    await text.undo();
    await text.waitForText("the misspelt key", (now) => now.includes("filtraton"));
    await text.undo();
    await text.waitForText("the roll as it was", (now) => now === roll);
    // The editor tells the extension host that a text is clean again some moments after the text itself.
    await until("an editor with nothing to save", async () => !(await window.isDirty()));
  });

  it("makes all safe corrections at once", async () => {
    const { text, window } = session();
    await text.replace("filtration", "filtraton");
    await text.replace('"03"', "03");
    await text.waitForProblems("two problems", (all) => all.length === 2);
    await window.run("editor.action.fixAll");
    expect(await text.waitForText("the roll as it was", (now) => now === roll)).toBe(roll);
  });

  it("tells in a hover what a value means and what it replaces", async () => {
    const { assistance, picture, window } = session();
    const hoverText = await assistance.hover("contrast: 1.7");
    expect(hoverText).toContain("contrast · slope at mid-grey");
    expect(hoverText).toMatch(/Range: 0\.2 to 5/);
    expect(hoverText).toMatch(/Replaces 1\.5, from the stock, northlight-400\.stock\.yaml:9/);
    await picture("editor-hover");
    await window.page.locator(".monaco-hover a", { hasText: "northlight-400.stock.yaml:9" }).first().click();
    await window.waitForEditor("northlight-400.stock.yaml");
    await assistance.dismiss();
  });

  it("proposes keys and values, and writes them", async () => {
    const { text, assistance, picture } = session();
    await text.caret("  toe: 0.3", true);
    await text.type("\n");
    const keys = await assistance.completions();
    expect(keys.slice(0, 3)).toEqual(["exposure", "contrast", "shoulder"]);
    await picture("editor-completion");
    await assistance.accept("contrast");
    await text.waitForText("the key with its default", (now) => now.includes("  toe: 0.3\n  contrast: 1.35\n"));

    await text.select('format: "135"');
    await text.type("film: ");
    expect(await assistance.completions()).toEqual(["colour-negative", "black-and-white-negative", "slide"]);
    await assistance.accept("slide");
    await text.waitForText("the film", (now) => now.includes("film: slide\n"));
    await text.replace("scan: H0003.dng", "scan: ");
    expect(await assistance.completions()).toContain("H0004.dng");
    await assistance.dismiss();
  });

  it("proposes the next frame with the next scan", async () => {
    const { text, assistance, server } = session();
    await server.exec(async (vscode) => {
      const editor = vscode.window.activeTextEditor!;
      const end = editor.document.positionAt(editor.document.getText().length);
      await editor.edit((edit) => edit.insert(end, "  "));
      editor.selection = new vscode.Selection(end.translate(0, 2), end.translate(0, 2));
    });
    expect(await assistance.completions()).toEqual(['"04"']);
    await assistance.accept('"04"');
    await text.waitForText("the frame", (now) => now.endsWith('  "04":\n    scan: H0004.dng'));
    await text.waitForProblems("no problem", (all) => all.length === 0);
  });

  it("follows the stock's path, and a value to the one that it replaces", async () => {
    const { text, window, server } = session();
    await text.caret("northlight-400");
    await window.run("editor.action.revealDefinition");
    await window.waitForEditor("northlight-400.stock.yaml");
    expect(await text.text()).toBe(stock);

    await window.openFile(rollFile);
    await text.caret("contrast: 1.7");
    await window.run("editor.action.revealDefinition");
    await window.waitForEditor("northlight-400.stock.yaml");
    const line = await server.exec((vscode) => vscode.window.activeTextEditor?.selection.start.line);
    expect(line).toBe(8);
  });

  it("moves a value to the stock and one to the roll, changing no frame, as one step to undo", async () => {
    const { text, assistance, server, picture } = session();
    expect(await assistance.fixes("toe: 0.3")).toContain("Move positive.toe to the stock");
    await picture("editor-move");
    await assistance.dismiss();
    await assistance.fix("toe: 0.3", "Move positive.toe to the stock");
    await text.waitForText("the roll without its toe", (now) => now === roll.replace("  toe: 0.3\n", ""));
    const other = () =>
      server.exec(async (vscode, path) => {
        const [folder] = vscode.workspace.workspaceFolders ?? [];
        return (await vscode.workspace.openTextDocument(vscode.Uri.joinPath(folder!.uri, path))).getText();
      }, stockFile);
    await expect.poll(other, { timeout: LIMIT }).toBe(stock.replace("  shoulder", "  toe: 0.3\n  shoulder"));
    // The editor saves what it moved; undone while it does, only the text in view would return.
    const unsaved = () => server.exec((vscode) => vscode.workspace.textDocuments.filter((one) => one.isDirty).length);
    await expect.poll(unsaved, { timeout: LIMIT }).toBe(0);
    await server.exec((vscode) => vscode.commands.executeCommand("undo"));
    await text.waitForText("the roll as it was", (now) => now === roll);
    await expect.poll(other, { timeout: LIMIT }).toBe(stock);

    await assistance.fix("contrast: 1.7", "Move positive.contrast to the roll");
    const moved = await text.waitForText("the roll with the contrast", (now) =>
      now.includes("  contrast: 1.7\n  toe: 0.3\n"),
    );
    expect(moved).toContain("positive: { exposure: 0.33, contrast: 1.5 }");
    await text.undo();
  });

  it("renames a frame", async () => {
    const { text, window } = session();
    await text.caret('02":');
    const renaming = window.run("editor.action.rename"); // ends with the box
    await window.page.locator(".rename-box input:focus").waitFor();
    await window.page.keyboard.press("Control+A");
    await window.page.keyboard.type("02A");
    await window.page.keyboard.press("Enter");
    await renaming;
    const renamed = roll.replace('"02"', '"02A"');
    expect(await text.waitForText("the new id", (now) => now === renamed)).toBe(renamed);
  });

  it("shows inherited values, the outline, folds and what each frame's lens offers", async () => {
    const { window, server, text, assistance, picture } = session();
    const hints = window.page.locator(".editor-group-container.active .view-line", { hasText: "instead of 1.5" });
    await hints.waitFor();
    const outline = await server.exec(async (vscode) => {
      const uri = vscode.window.activeTextEditor!.document.uri;
      const all = await vscode.commands.executeCommand<import("vscode").DocumentSymbol[]>(
        "vscode.executeDocumentSymbolProvider",
        uri,
      );
      return all.find((one) => one.name === "frames")?.children.map((one) => `${one.name} ${one.detail}`);
    });
    expect(outline).toEqual(["01 H0001.dng", "02 H0002.dng", "03 H0003.dng"]);
    await text.replace("contrast: 1.7", "contrast: 17");
    await text.waitForProblems("a problem", (all) => all.length === 1);
    await expect
      .poll(() => assistance.lenses(), { timeout: LIMIT })
      .toContainEqual(expect.stringMatching(/1\u00a0?\s?problem/));
    await picture("editor-recipe");
    await window.page.locator(".codelens-decoration a", { hasText: /1\s?problem/ }).click();
    expect(await server.exec((vscode) => vscode.window.activeTextEditor?.selection.start.line)).toBe(22);
    await assistance.dismiss();
  });

  it("is laid out canonically by the editor's own formatter", async () => {
    const { text, window } = session();
    await text.replace("filtration: { magenta: 4, yellow: 7 }", "filtration:    {yellow: 7,magenta: 4}");
    await window.run("editor.action.formatDocument");
    expect(await text.waitForText("the roll as it was", (now) => now === roll)).toBe(roll);
  });

  it("begins a new roll with a text that has no fault but what is still to be said", async () => {
    const { text, window, picture } = session();
    await window.runFromPalette("Rollbook: New Empty Roll");
    await window.waitForEditor("new.roll.yaml");
    await text.waitForText("the beginning", (now) => now.startsWith("version: 2\ntitle: Harbour"));
    const problems = await text.waitForProblems("what is missing", (all) => all.length === 2);
    expect(new Set(problems.map(({ code }) => code))).toEqual(new Set(["empty-value"]));
    await picture("editor-new-roll");
    await window.run("workbench.action.revertAndCloseActiveEditor"); // it was never saved, so closing would ask
  });

  it("explains in a walkthrough how to start", async () => {
    const { window, picture } = session();
    await window.run("workbench.action.closeSidebar"); // drawings are shown in wide windows alone
    await window.run("workbench.action.openWalkthrough", "rollbook.rollbook#start", false);
    const step = window.page.locator(".getting-started-step", { hasText: "State each value once" });
    await step.waitFor();
    await step.click();
    const drawing = window.page.locator(".getting-started-media").first();
    await drawing.waitFor();
    expect(await step.innerText()).toContain("A frame takes from its roll what it does not state itself");
    await picture("editor-walkthrough");
    await window.run("workbench.view.explorer");
  });

  it("asks for nothing outside this machine", () => {
    expect(session().window.watched.foreign).toEqual([]);
  });
});
