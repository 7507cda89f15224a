import type { Locator, Page } from "playwright-core";
import type { EditorWindow } from "./window.ts";
import type { TextEditor } from "./text-editor.ts";
import { until } from "../wait.ts";

/** What the editor offers at a place: fixes, hovers, completions, definitions, lenses. All by way of its own widgets. */
export class Assistance {
  private readonly window: EditorWindow;
  private readonly text: TextEditor;
  private readonly page: Page;

  constructor(window: EditorWindow, text: TextEditor) {
    this.window = window;
    this.text = text;
    this.page = window.page;
  }

  /** Opens the list of fixes and refactorings at a text and gives their titles. Leaves the list open. */
  async fixes(text: string): Promise<string[]> {
    await this.text.caret(text);
    // The fixes of a problem are known a moment after the problem: ask again until there are some.
    return until(`fixes at ${JSON.stringify(text)}`, async () => {
      await this.window.run("editor.action.quickFix");
      const rows = this.fixRows();
      const shown = await rows
        .first()
        .waitFor({ timeout: 1500 })
        .then(
          () => true,
          () => false,
        );
      return shown ? (await rows.allInnerTexts()).map((title) => title.trim()) : undefined;
    });
  }

  /** Applies the fix with this title at a text. */
  async fix(text: string, title: string): Promise<void> {
    const titles = await this.fixes(text);
    const row = titles.indexOf(title);
    if (row < 0)
      throw new Error(
        `There is no fix ${JSON.stringify(title)} at ${JSON.stringify(text)}, only ${JSON.stringify(titles)}.`,
      );
    await this.fixRows().nth(row).click();
    await this.fixRows().first().waitFor({ state: "hidden" });
  }

  private fixRows(): Locator {
    return this.page.locator(".action-widget .monaco-list-row.action");
  }

  /** Shows the hover at a text and gives what it says. */
  async hover(text: string): Promise<string> {
    await this.text.caret(text);
    await this.window.run("editor.action.showHover");
    const content = this.page.locator(".monaco-hover:not(.hidden) .monaco-hover-content").first();
    await content.waitFor();
    return until("the hover's text", async () => {
      const innerText = await content.innerText();
      return innerText.trim() && !innerText.startsWith("Loading") ? innerText : undefined;
    });
  }

  /** Opens the completion list at the caret and gives the labels in view (the list is virtual: the first dozen). */
  async completions(): Promise<string[]> {
    await this.window.run("editor.action.triggerSuggest");
    const rows = this.page.locator(".suggest-widget.visible .monaco-list-row");
    await rows.first().waitFor();
    return rows.locator(".label-name").allInnerTexts();
  }

  /** Accepts the completion with this label from the open list. */
  async accept(label: string): Promise<void> {
    const focused = this.page.locator(".suggest-widget.visible .monaco-list-row.focused .label-name");
    await until(`the completion ${JSON.stringify(label)}`, async () => {
      if ((await focused.innerText({ timeout: 2000 })) === label) return true;
      await this.page.keyboard.press("ArrowDown");
      return false;
    });
    await this.page.keyboard.press("Enter");
    await this.page.locator(".suggest-widget.visible").waitFor({ state: "hidden" });
  }

  /** Texts of the lenses in view. */
  async lenses(): Promise<string[]> {
    const links = this.page.locator(".editor-group-container.active .codelens-decoration a");
    await links.first().waitFor();
    return links.allInnerTexts();
  }

  /** Closes an open hover or list. */
  async dismiss(): Promise<void> {
    await this.page.keyboard.press("Escape");
  }
}
