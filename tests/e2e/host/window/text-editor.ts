import type { Page } from "playwright-core";
import type { Server } from "../editor/server.ts";
import { until } from "../wait.ts";

/** A problem as the editor holds it, with the text it stands under; lines and columns count from 1. */
export interface FoundProblem {
  message: string;
  severity: "error" | "warning" | "info" | "hint";
  code: string | undefined;
  source: string | undefined;
  text: string;
  line: number;
  column: number;
}

/** A box in the page, in CSS pixels. */
export interface Box {
  left: number;
  right: number;
  top: number;
  bottom: number;
}

/** What a test does in the active text editor. A place is given by text that occurs once in the document. */
export class TextEditor {
  private readonly server: Server;
  private readonly page: Page;

  constructor(server: Server, page: Page) {
    this.server = server;
    this.page = page;
  }

  /** The document's text as it is in the editor, saved or not. */
  text(): Promise<string> {
    return this.server.exec((vscode) => {
      const editor = vscode.window.activeTextEditor;
      if (!editor) throw new Error("No text editor is active.");
      return editor.document.getText();
    });
  }

  /** Selects a text that occurs exactly once, scrolls it into view and gives the keyboard to the editor. */
  async select(text: string): Promise<void> {
    await this.server.exec(async (vscode, wanted) => {
      const editor = vscode.window.activeTextEditor;
      if (!editor) throw new Error("No text editor is active.");
      const { document } = editor;
      const at = document.getText().indexOf(wanted);
      if (at < 0) throw new Error(`The text ${JSON.stringify(wanted)} is not in ${document.uri.fsPath}.`);
      if (document.getText().indexOf(wanted, at + 1) >= 0)
        throw new Error(`The text ${JSON.stringify(wanted)} is more than once in ${document.uri.fsPath}.`);
      const range = new vscode.Range(document.positionAt(at), document.positionAt(at + wanted.length));
      editor.selection = new vscode.Selection(range.start, range.end);
      editor.revealRange(range, vscode.TextEditorRevealType.InCenterIfOutsideViewport);
      await vscode.commands.executeCommand("workbench.action.focusActiveEditorGroup");
    }, text);
  }

  /** Puts the caret before, or with `after` behind, a text that occurs exactly once. */
  async caret(text: string, after = false): Promise<void> {
    await this.select(text);
    await this.server.exec(async (vscode, behind) => {
      const editor = vscode.window.activeTextEditor;
      if (!editor) throw new Error("No text editor is active.");
      const place = behind ? editor.selection.end : editor.selection.start;
      editor.selection = new vscode.Selection(place, place);
      // Answered after the selection was taken in: keys pressed from now on are typed there.
      await vscode.commands.executeCommand("workbench.action.focusActiveEditorGroup");
    }, after);
  }

  /**
   * Types with the keyboard in place of the selection, closes a completion list that opened by itself, and waits until
   * the document has taken in the keys.
   */
  async type(text: string): Promise<void> {
    const before = await this.text();
    await this.page.keyboard.type(text, { delay: 5 });
    await this.page.keyboard.press("Escape");
    let last = before;
    await until("the typed text to arrive", async () => {
      const previous = last;
      last = await this.text();
      return last !== before && last === previous;
    });
  }

  /** Selects a text and types another in its place. */
  async replace(text: string, by: string): Promise<void> {
    await this.select(text);
    await this.type(by);
  }

  /** Presses undo once. */
  async undo(): Promise<void> {
    await this.server.exec((vscode) => vscode.commands.executeCommand("workbench.action.focusActiveEditorGroup"));
    await this.page.keyboard.press("Control+Z");
  }

  /** Waits until the document's text fits. */
  async waitForText(what: string, fits: (text: string) => boolean): Promise<string> {
    let text = "";
    await until(`${what} in the text`, async () => fits((text = await this.text())));
    return text;
  }

  /** The problems of the active document. */
  problems(): Promise<FoundProblem[]> {
    return this.server.exec((vscode) => {
      const document = vscode.window.activeTextEditor?.document;
      if (!document) throw new Error("No text editor is active.");
      const severities = ["error", "warning", "info", "hint"] as const;
      return vscode.languages.getDiagnostics(document.uri).map((found) => ({
        message: found.message,
        severity: severities[found.severity],
        code:
          found.code === undefined ? undefined : String(typeof found.code === "object" ? found.code.value : found.code),
        source: found.source,
        text: document.getText(found.range),
        line: found.range.start.line + 1,
        column: found.range.start.character + 1,
      }));
    });
  }

  /** Waits until the problems fit, and gives them. */
  waitForProblems(what: string, fit: (problems: FoundProblem[]) => boolean): Promise<FoundProblem[]> {
    return until(what, async () => {
      const problems = await this.problems();
      return fit(problems) ? problems : undefined;
    });
  }

  /** Where a text of one visible line is painted. */
  boxOf(text: string): Promise<Box> {
    return until(`the text ${JSON.stringify(text)} in view`, () =>
      this.page.evaluate((wanted) => {
        for (const line of document.querySelectorAll(".editor-group-container.active .view-line")) {
          const all = line.textContent?.replaceAll("\u00a0", " ") ?? "";
          const at = all.indexOf(wanted);
          if (at < 0) continue;
          const range = document.createRange();
          const walker = document.createTreeWalker(line, NodeFilter.SHOW_TEXT);
          for (let from = 0, node = walker.nextNode(); node; node = walker.nextNode()) {
            const to = from + (node.textContent?.length ?? 0);
            if (at >= from && at < to) range.setStart(node, at - from);
            if (at + wanted.length > from && at + wanted.length <= to) range.setEnd(node, at + wanted.length - from);
            from = to;
          }
          const { left, right, top, bottom } = range.getBoundingClientRect();
          return { left, right, top, bottom };
        }
        return undefined;
      }, text),
    );
  }

  /** Where squiggles are painted in the active editor. */
  squiggles(severity: "error" | "warning" | "info" = "error"): Promise<Box[]> {
    return this.page.locator(`.editor-group-container.active .squiggly-${severity}`).evaluateAll((found) =>
      found.map((element) => {
        const { left, right, top, bottom } = element.getBoundingClientRect();
        return { left, right, top, bottom };
      }),
    );
  }
}
