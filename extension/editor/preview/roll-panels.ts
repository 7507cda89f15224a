/** The open panels of one kind, at most one a roll, and how they are opened and restored. */
import * as vscode from "vscode";
import type { EditorServices } from "../services.ts";
import { targetOf } from "../targets.ts";
import { memoryKey, type PanelKind, type PanelStart, type PanelTools, type RollPanel } from "./roll-panel.ts";

type MakePanel = (document: vscode.TextDocument, panel: vscode.WebviewPanel, start: PanelStart) => RollPanel;

/** The panels of one kind, one a roll: opened by a command, brought back after a reload of the window. */
export class RollPanels implements vscode.Disposable {
  readonly #kind: PanelKind;
  readonly #tools: PanelTools;
  readonly #make: MakePanel;
  readonly #panels = new Map<string, RollPanel>();
  readonly #serializer: vscode.Disposable;

  constructor(kind: PanelKind, tools: PanelTools, make: MakePanel) {
    this.#kind = kind;
    this.#tools = tools;
    this.#make = make;
    this.#serializer = vscode.window.registerWebviewPanelSerializer(kind.view, {
      deserializeWebviewPanel: (panel, state: { document?: unknown } | undefined) => this.#restore(panel, state),
    });
  }

  /** @param target what a menu handed over, or a recipe's address; without one the open text, or the roll of the active panel */
  async open(target: unknown, frame: unknown): Promise<void> {
    const given = targetOf(target);
    // The title of a panel hands over the panel's own address.
    const uri = [given.uri, vscode.window.activeTextEditor?.document.uri, activeRoll].find(
      (one) => one && /\.roll\.ya?ml$/i.test(one.path),
    );
    if (!uri) {
      void vscode.window.showInformationMessage(
        vscode.l10n.t("Open a roll’s recipe (*.roll.yaml) first, or choose one in the Rolls view."),
      );
      return;
    }
    const id = typeof frame === "string" ? frame : given.frame;
    const known = this.#panels.get(uri.toString());
    if (known) return known.show(id);
    const document = await vscode.workspace.openTextDocument(uri);
    const panel = vscode.window.createWebviewPanel(this.#kind.view, "Rollbook", {
      viewColumn: this.#kind.column,
      preserveFocus: this.#kind.column === vscode.ViewColumn.Beside,
    });
    this.#adopt(panel, document, { frame: id ?? (await frameUnderCursor(document, this.#tools.services)) });
  }

  dispose(): void {
    this.#serializer.dispose();
    for (const panel of this.#panels.values()) panel.dispose();
  }

  async #restore(panel: vscode.WebviewPanel, state: { document?: unknown } | undefined): Promise<void> {
    const { services, memory } = this.#tools;
    try {
      if (typeof state?.document !== "string") throw new Error("The panel's state names no recipe.");
      const document = await vscode.workspace.openTextDocument(vscode.Uri.parse(state.document, true));
      this.#adopt(panel, document, { kept: await memory.recall(memoryKey(this.#kind, document)) });
    } catch (error) {
      services.log.warn(`A panel could not be restored: ${String(error)}`);
      panel.dispose();
    }
  }

  #adopt(panel: vscode.WebviewPanel, document: vscode.TextDocument, start: PanelStart): void {
    const key = document.uri.toString();
    const made = this.#make(document, panel, start);
    this.#panels.set(key, made);
    const follow = (): void => {
      if (panel.active) activeRoll = document.uri;
      else if (activeRoll === document.uri) activeRoll = undefined;
    };
    follow();
    panel.onDidChangeViewState(follow);
    panel.onDidDispose(() => {
      if (activeRoll === document.uri) activeRoll = undefined;
      if (this.#panels.get(key) === made) this.#panels.delete(key);
      made.dispose();
      void this.#tools.memory.forget(memoryKey(this.#kind, document));
    });
  }
}

/** The roll of the panel that has the focus: a command without a target is about it. */
let activeRoll: vscode.Uri | undefined;

async function frameUnderCursor(
  document: vscode.TextDocument,
  { recipes }: EditorServices,
): Promise<string | undefined> {
  const editor = vscode.window.visibleTextEditors.find((e) => e.document === document);
  if (!editor) return undefined;
  const { document: recipe } = await recipes.read(document);
  const { path } = recipe.pathAt(document.offsetAt(editor.selection.active));
  return path[0] === "frames" && path.length > 1 ? String(path[1]) : undefined;
}
