import type { Frame } from "playwright-core";
import type { WatchedPage } from "./browser.ts";
import { pickFromQuickInput } from "./quick-input.ts";
import type { Server } from "../editor/server.ts";
import { LIMIT, until } from "../wait.ts";

/** What a test does with the editor's window as a whole. */
export class EditorWindow {
  readonly server: Server;
  readonly watched: WatchedPage;

  constructor(server: Server, watched: WatchedPage) {
    this.server = server;
    this.watched = watched;
  }

  get page() {
    return this.watched.page;
  }

  /** Shows a folder, and waits until the window is painted and its extension host answers. */
  async openFolder(folder: string): Promise<void> {
    await this.load(() => this.page.goto(this.server.address(folder), { waitUntil: "domcontentloaded" }));
  }

  /** Loads the window again, as after a restart. */
  async reload(): Promise<void> {
    await this.load(() => this.page.reload({ waitUntil: "domcontentloaded" }));
  }

  /**
   * Brings a tab to the front. After a reload another may be there: the editor writes down every few seconds which tabs
   * are open and in front, and a browser does not wait for that, so what was done last may be undone.
   */
  async showTab(label: string): Promise<void> {
    await this.page.locator(".tab", { hasText: label }).first().click();
  }

  private async load(go: () => Promise<unknown>): Promise<void> {
    this.server.forgetExtensionHost();
    await go();
    await this.page.locator(".monaco-workbench").waitFor();
    await this.page.locator(".part.statusbar .statusbar-item").first().waitFor();
    await this.server.exec((vscode) => vscode.version);
  }

  /** Opens a file by its path in the opened folder and waits for its editor. */
  async openFile(path: string): Promise<void> {
    await this.server.exec(async (vscode, relative) => {
      const folder = vscode.workspace.workspaceFolders?.[0];
      if (!folder) throw new Error("No folder is open.");
      await vscode.window.showTextDocument(vscode.Uri.joinPath(folder.uri, relative));
    }, path);
    await this.waitForEditor(path.split("/").at(-1) ?? path);
  }

  /** Waits until the active tab's label contains `label`. Every group has an active tab: only the active group counts. */
  async waitForEditor(label: string): Promise<void> {
    await this.page.locator(".editor-group-container.active .tab.active", { hasText: label }).first().waitFor();
  }

  /** True while the active editor has unsaved changes. */
  isDirty(): Promise<boolean> {
    return this.server.exec((vscode) => vscode.window.activeTextEditor?.document.isDirty ?? false);
  }

  /** Runs a command by its id in the extension host. */
  run(command: string, ...args: unknown[]): Promise<unknown> {
    return this.server.exec((vscode, id, rest) => vscode.commands.executeCommand(id, ...rest), command, args);
  }

  /** Runs a command as a user does, from the palette, by its whole label ("Category: Title"). */
  runFromPalette(label: string): Promise<void> {
    return pickFromQuickInput(this.page, "F1", ">", label);
  }

  /** Waits for a notification that contains a text and gives its whole text. */
  async notification(text: string): Promise<string> {
    const message = this.page.locator(".notification-list-item-message", { hasText: text }).first();
    await message.waitFor();
    return message.innerText();
  }

  /** Texts of the status bar's items. */
  statusBar(): Promise<string[]> {
    return this.page.locator(".part.statusbar .statusbar-item").allInnerTexts();
  }

  /**
   * The document of the webview for which `isIt` is true. VS Code wraps each in two frames and keeps hidden ones in the
   * page, so the frame is found by what it shows. The function is sent to the frame: it sees nothing of the test.
   */
  webview(isIt: () => boolean): Promise<Frame> {
    // After the window was loaded again, the extension has to start first.
    const patient = { limit: 3 * LIMIT };
    return until(
      `a webview that fits ${isIt.toString().slice(0, 120)}`,
      async () => {
        for (const frame of this.page.frames()) {
          const element = await frame.frameElement().catch(() => undefined); // the main frame has none
          if ((await element?.getAttribute("id").catch(() => undefined)) !== "active-frame") continue;
          if (await frame.evaluate(isIt).catch(() => false)) return frame;
        }
        return undefined;
      },
      patient,
    );
  }
}
