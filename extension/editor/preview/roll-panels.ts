/** The panels of one kind over rolls: opening them, bringing them back, and letting them follow the text in front. */
import * as vscode from "vscode";
import type { EditorServices } from "../services.ts";
import { followActive, targetUri } from "../panels/active-roll.ts";
import { targetOf } from "../targets.ts";
import { memoryKey, type PanelKind, type PanelStart, type PanelTools, type RollPanel } from "./roll-panel.ts";

type MakePanel = (document: vscode.TextDocument, panel: vscode.WebviewPanel, start: PanelStart) => RollPanel;

const isRoll = (uri: vscode.Uri): boolean => /\.roll\.ya?ml$/i.test(uri.path);

/** A panel with the roll that it shows now. */
interface Shown {
  readonly panel: vscode.WebviewPanel;
  readonly roll: RollPanel;
  readonly listeners: vscode.Disposable;
  locked: boolean;
}

/** The panels of one kind, one a roll: opened by a command, brought back after a reload of the window. */
export class RollPanels implements vscode.Disposable {
  readonly #kind: PanelKind;
  readonly #tools: PanelTools;
  readonly #make: MakePanel;
  readonly #panels = new Map<string, Shown>();
  readonly #subscriptions: vscode.Disposable[];

  constructor(kind: PanelKind, tools: PanelTools, make: MakePanel) {
    this.#kind = kind;
    this.#tools = tools;
    this.#make = make;
    this.#subscriptions = [
      vscode.window.registerWebviewPanelSerializer(kind.view, {
        deserializeWebviewPanel: (panel, state: { document?: unknown } | undefined) => this.#restore(panel, state),
      }),
      ...(kind.follows
        ? [vscode.window.onDidChangeActiveTextEditor((editor) => void this.#follow(editor?.document))]
        : []),
    ];
  }

  /** @param target what a menu handed over, or a recipe's address; without one the open text, or the roll of the active panel */
  async open(target: unknown, frame: unknown): Promise<void> {
    const given = targetOf(target);
    // The title of a panel hands over the panel's own address.
    const uri = [given.uri, targetUri(undefined)].find((one) => one && isRoll(one));
    if (!uri) {
      void vscode.window.showInformationMessage(
        vscode.l10n.t("Open a roll’s recipe (*.roll.yaml) first, or choose one in the Rolls view."),
      );
      return;
    }
    const id = typeof frame === "string" ? frame : given.frame;
    const known = this.#panels.get(uri.toString());
    if (known) return known.roll.show(id);
    const document = await vscode.workspace.openTextDocument(uri);
    const panel = vscode.window.createWebviewPanel(this.#kind.view, "Rollbook", {
      viewColumn: this.#kind.column,
      preserveFocus: this.#kind.column === vscode.ViewColumn.Beside,
    });
    this.#adopt(panel, document, { frame: id ?? (await frameUnderCursor(document, this.#tools.services)) });
  }

  /** Holds the active panel at its roll, or lets it follow the text in front again. */
  lock(locked: boolean): void {
    const shown = [...this.#panels.values()].find(({ panel }) => panel.active);
    if (!shown) return;
    shown.locked = locked;
    this.#reportLock();
    if (!locked) void this.#follow(vscode.window.activeTextEditor?.document);
  }

  dispose(): void {
    for (const one of this.#subscriptions) one.dispose();
    for (const { roll, listeners } of this.#panels.values()) {
      listeners.dispose();
      roll.dispose();
    }
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

  /** Another roll's text came to the front: a panel in view that is not locked goes over to it. */
  async #follow(document: vscode.TextDocument | undefined): Promise<void> {
    if (!document || !isRoll(document.uri) || this.#panels.has(document.uri.toString())) return;
    const shown = [...this.#panels.values()].find(({ panel, locked }) => panel.visible && !locked);
    if (!shown) return;
    const { panel, roll, listeners } = shown;
    listeners.dispose();
    roll.dispose();
    this.#panels.delete(roll.document.uri.toString());
    const { memory, services } = this.#tools;
    const kept = await memory.recall(memoryKey(this.#kind, document));
    this.#adopt(panel, document, { kept, frame: await frameUnderCursor(document, services) });
  }

  #adopt(panel: vscode.WebviewPanel, document: vscode.TextDocument, start: PanelStart): void {
    const key = document.uri.toString();
    const roll = this.#make(document, panel, start);
    const listeners = vscode.Disposable.from(
      followActive(panel, document.uri),
      panel.onDidChangeViewState(() => this.#reportLock()),
      panel.onDidDispose(() => {
        if (this.#panels.get(key) === shown) this.#panels.delete(key);
        roll.dispose();
        listeners.dispose();
        void this.#tools.memory.forget(memoryKey(this.#kind, document));
      }),
    );
    const shown: Shown = { panel, roll, listeners, locked: false };
    this.#panels.set(key, shown);
    this.#reportLock();
  }

  /** Tells the menus whether the active panel is locked. */
  #reportLock(): void {
    if (!this.#kind.follows) return;
    const active = [...this.#panels.values()].find(({ panel }) => panel.active);
    void vscode.commands.executeCommand("setContext", `${this.#kind.view}.locked`, active?.locked ?? false);
  }
}

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
