/** A panel that shows a roll beside its recipe: it serves the page's requests and keeps page and text the same. */
import { recipeText, stampsOf } from "../files.ts";
import * as vscode from "vscode";
import { JobError } from "../../failure.ts";
import type { PageEvents, PreviewEvents, PreviewRequests, RecipePath, RollState } from "../../messages.ts";
import type { Reading } from "../../recipe/language/document-cache.ts";
import type { Pool } from "../../work/pool/pool.ts";
import { openWorkspace } from "../../work/files/workspace.ts";
import { measuredAreas } from "../../work/new-roll/renew/renewal-plan.ts";
import {
  createEmitter,
  createRpcServer,
  dispatchEvent,
  type EventHandlers,
  type Handlers,
  type RpcMessage,
  type RpcServer,
} from "../../rpc.ts";
import type { PanelMemory } from "../panels/panel-memory.ts";
import { lastLayout, rememberLayout } from "./last-layout.ts";
import type { EditorServices } from "../services.ts";
import { setting } from "../settings.ts";
import { fileOf, uriOf } from "../uris.ts";
import { askCopy } from "./copy.ts";
import { exportChosen } from "./export.ts";
import type { Pictures, RollPlace } from "./pictures.ts";
import { applyGesture, followInText, showInText } from "./recipe-text.ts";
import { undoInText } from "./undo-in-text.ts";
import { cascadesOf, filesOf, frameAt, isValid, profilesOf, rollState, type ValidRoll } from "./roll-state.ts";

export interface PanelTools {
  readonly services: EditorServices;
  readonly pool: Pool;
  readonly pictures: Pictures;
  readonly memory: PanelMemory;
  readonly context: vscode.ExtensionContext;
}

/** What one kind of panel has of its own. */
export interface PanelKind {
  /** The editor's name of it. */
  readonly view: string;
  /** Where a new panel opens. */
  readonly column: vscode.ViewColumn;
  /** @param file name of the roll's recipe */
  title(file: string): string;
  /** Whether an open panel goes over to the roll whose text comes to the front, until it is locked. */
  readonly follows?: boolean;
  /** @returns the page's HTML */
  page(webview: vscode.Webview, dist: vscode.Uri, document: vscode.Uri, kept: unknown): string;
}

/** What a panel begins with. */
export interface PanelStart {
  readonly frame?: string;
  /** What its page had kept before the window was reloaded. */
  readonly kept?: unknown;
}

/**
 * One panel of one roll: it keeps the latest state, whether or not anybody sees it, and answers what the page asks. The
 * preview is one; others extend it.
 */
export class RollPanel implements vscode.Disposable {
  readonly document: vscode.TextDocument;
  readonly #kind: PanelKind;
  readonly #panel: vscode.WebviewPanel;
  readonly #tools: PanelTools;
  readonly #subscriptions: vscode.Disposable[] = [];
  readonly #server: RpcServer;
  readonly #emit = createEmitter<PreviewEvents>((message) => this.#post(message));
  #valid: ValidRoll | undefined;
  #state: RollState | undefined;
  #frame: string | undefined;
  #turn = 0;
  #closed = false;
  readonly #stamps = new Map<string, string>();

  constructor(
    kind: PanelKind,
    document: vscode.TextDocument,
    panel: vscode.WebviewPanel,
    tools: PanelTools,
    { frame, kept }: PanelStart,
  ) {
    this.#kind = kind;
    this.document = document;
    this.#panel = panel;
    this.#tools = tools;
    this.#frame = frame;
    const { recipes } = tools.services;
    const dist = vscode.Uri.joinPath(tools.context.extensionUri, "dist");
    this.#server = createRpcServer(this.handlers(), (message) => this.#post(message));
    const pageEvents: EventHandlers<PageEvents> = {
      keep: (state) => {
        tools.memory.keep(memoryKey(kind, document), state);
        rememberLayout(tools.context.workspaceState, kind, state);
      },
    };
    this.#subscriptions.push(
      panel.webview.onDidReceiveMessage((message) => {
        if (!dispatchEvent(message, pageEvents)) this.#server.receive(message);
      }),
      recipes.onDidRead(({ document: read, reading }) => {
        if (read === document) void this.#take(reading);
      }),
      recipes.onDidInvalidate(() => this.#stamps.clear()),
      vscode.window.onDidChangeTextEditorSelection(({ textEditor, selections }) => {
        if (textEditor.document === document && selections.length === 1) this.#followCursor(selections[0].active);
      }),
      vscode.workspace.onDidChangeConfiguration((event) => {
        if (event.affectsConfiguration("rollbook.preview")) this.#emit("settings", { surround: surroundOf(document) });
      }),
      vscode.workspace.onDidGrantWorkspaceTrust(() => void this.refresh()),
      tools.services.surveys.onDidChange((roll) => {
        if (roll === fileOf(document.uri)) this.#emit("surveyed", null);
      }),
    );
    panel.webview.options = { enableScripts: true, localResourceRoots: [dist] };
    panel.webview.html = kind.page(
      panel.webview,
      dist,
      document.uri,
      kept ?? lastLayout(tools.context.workspaceState, kind),
    );
    panel.iconPath = vscode.Uri.joinPath(tools.context.extensionUri, "extension", "editor", "media", "icon.png");
  }

  /** Brings the panel to the front, at a frame. */
  show(frame: string | undefined): void {
    this.#panel.reveal(undefined, true);
    if (frame !== undefined) this.#goTo(frame);
  }

  dispose(): void {
    this.#closed = true;
    this.#server.close();
    for (const one of this.#subscriptions) one.dispose();
  }

  #post(message: RpcMessage): void {
    if (this.#closed) return; // work that was under way when the panel closed
    // A hidden panel has no page: what it misses it asks for again when it is shown.
    void this.#panel.webview.postMessage(message);
  }

  #goTo(frame: string): void {
    if (frame === this.#frame) return;
    this.#frame = frame;
    this.#emit("show", { frame });
  }

  #followCursor(position: vscode.Position): void {
    const recipe = this.#tools.services.recipes.documents.latest(fileOf(this.document.uri));
    if (!recipe) return;
    const frame = frameAt(recipe, this.document.offsetAt(position));
    if (frame !== undefined && this.#state?.frames.some((f) => f.id === frame)) this.#goTo(frame);
  }

  /** The recipe as its text is now, without waiting for a pause in typing. */
  protected async readNow(): Promise<Reading> {
    const { documents } = this.#tools.services.recipes;
    const { document } = this;
    return await documents.reading(
      documents.document({ file: fileOf(document.uri), version: document.version, text: recipeText(document) }),
    );
  }

  protected async refresh(): Promise<RollState> {
    return await this.#take(await this.readNow());
  }

  async #take(reading: Reading): Promise<RollState> {
    const turn = ++this.#turn;
    const { version } = this.document;
    if (isValid(reading)) this.#valid = reading;
    const valid = this.#valid;
    await this.#stampFiles(valid);
    const stamp = (path: string): string => this.#stamps.get(path) ?? "";
    const measured = measuredAreas((valid ?? reading).roll.value);
    const state = rollState(reading, valid, { version, trusted: vscode.workspace.isTrusted, stamp, measured });
    // While files were looked at, a newer text may have come by.
    if (turn !== this.#turn) return state;
    if (this.#closed) return state;
    this.#state = state;
    this.#panel.title = this.#kind.title(state.file);
    this.#emit("roll", state);
    return state;
  }

  /** Looks at each file once, until something around the recipe changes: a replaced scan needs another proxy. */
  async #stampFiles(valid: ValidRoll | undefined): Promise<void> {
    const named = valid ? [...valid.resolved.frames.flatMap(filesOf), ...profilesOf(valid.resolved)] : [];
    const files = new Set(named.filter((path) => !this.#stamps.has(path)));
    for (const [path, stamp] of Object.entries(await stampsOf(files))) this.#stamps.set(path, stamp);
  }

  /** @throws JobError where the recipe has had errors all along */
  protected validRoll(): ValidRoll {
    if (!this.#valid)
      throw new JobError({
        code: "no-roll",
        message: vscode.l10n.t("The recipe has errors; fix them and the picture appears."),
      });
    return this.#valid;
  }

  /** @throws JobError where no pictures may or can be made */
  protected place(): RollPlace {
    if (!vscode.workspace.isTrusted)
      throw new JobError({
        code: "untrusted",
        message: vscode.l10n.t("No scans are decoded in restricted mode. Trust this workspace to see pictures."),
      });
    if (this.document.uri.scheme !== "file")
      throw new JobError({
        code: "not-a-file",
        message: vscode.l10n.t(
          "Pictures need the roll and its scans as files on this computer. Save the recipe first.",
        ),
      });
    const folder =
      vscode.workspace.getWorkspaceFolder(this.document.uri)?.uri ?? vscode.Uri.joinPath(this.document.uri, "..");
    return { roll: this.validRoll().resolved, workspace: openWorkspace(folder.fsPath) };
  }

  protected sourceOf(frame: string): string {
    return this.#state?.frames.find((f) => f.id === frame)?.source ?? "";
  }

  protected handlers(): Handlers<PreviewRequests> {
    return { ...this.#stateHandlers(), ...this.#pictureHandlers(), ...this.#recipeHandlers(), ...this.#spotHandlers() };
  }

  /** What the page asks when it opens, or comes to another frame. */
  #stateHandlers(): Pick<Handlers<PreviewRequests>, "ready" | "cascades" | "select"> {
    const { document } = this;
    return {
      ready: async ({ frame }) => {
        const roll = await this.refresh();
        const shown = this.#frame ?? frame;
        const found = roll.frames.find((f) => f.id === shown) ?? roll.frames[0];
        this.#frame = found?.id;
        return { roll, settings: { surround: surroundOf(document) }, ...(found ? { frame: found.id } : {}) };
      },
      cascades: async ({ frame, paths }) => ({
        version: document.version,
        cascades: cascadesOf(this.validRoll(), frame, paths),
      }),
      select: async ({ frame }) => {
        this.#frame = frame;
        const recipe = this.#valid?.roll;
        const editor = vscode.window.visibleTextEditors.find((e) => e.document === document);
        // A cursor that is in the frame already stays where it is.
        if (recipe && editor && frameAt(recipe, document.offsetAt(editor.selection.active)) !== frame)
          followInText(document, recipe, frame, undefined);
        return {};
      },
    };
  }

  /** Decoded scans, what is measured on them, and files written from them. */
  #pictureHandlers(): Pick<
    Handlers<PreviewRequests>,
    "thumbnail" | "picture" | "unhealed" | "detail" | "base" | "proof" | "export"
  > {
    const { pictures, pool, context } = this.#tools;
    const proxy = async (frame: string, part: Parameters<Pictures["proxy"]>[2], signal: AbortSignal) => {
      const source = this.sourceOf(frame);
      return { ...(await pictures.proxy(this.place(), frame, part, signal)), source };
    };
    return {
      thumbnail: ({ frame }, { signal }) => proxy(frame, "thumbnail", signal),
      picture: ({ frame }, { signal }) => proxy(frame, "picture", signal),
      unhealed: ({ frame }, { signal }) => proxy(frame, "unhealed", signal),
      detail: ({ frame, part }, { signal }) => proxy(frame, part, signal),
      base: async ({ frame, area }, { signal }) => {
        const reading = await pictures.base(this.place(), frame, area, signal);
        return { density: reading.density, scatter: reading.scatter, scan: reading.scan, area: reading.area };
      },
      proof: async ({ output, screen }, { signal }) => ({
        table: await pictures.proof(this.place(), output, screen, signal),
      }),
      export: async ({ frame }) => ({
        files: await exportChosen(this.place(), this.document.uri, [frame], {
          pool,
          memory: context.workspaceState,
          log: this.#tools.services.log,
        }),
      }),
    };
  }

  /** Whether a path lies in another frame than the one in view. */
  #isElsewhere(path: RecipePath): boolean {
    return path[0] === "frames" && path[1] !== this.#frame;
  }

  /** Changes of the recipe's text, and places in it. */
  #recipeHandlers(): Pick<Handlers<PreviewRequests>, "edit" | "undo" | "copy" | "reveal"> {
    const { document } = this;
    return {
      edit: async ({ edits }) => {
        await applyGesture(document, edits);
        await this.refresh();
        const [first] = edits;
        // Frames that others are copied to, or that a gesture is late for, must not take the view away from this one.
        if (first && this.#valid && !this.#isElsewhere(first.path))
          followInText(document, this.#valid.roll, undefined, first.path);
        return { version: document.version };
      },
      undo: async ({ redo }) => {
        await undoInText(document, redo, this.#panel);
        await this.refresh();
        return { version: document.version };
      },
      copy: async ({ frame }) => {
        const wanted = await askCopy(this.validRoll(), frame);
        if (!wanted) return { frames: [] };
        await applyGesture(document, wanted.edits);
        await this.refresh();
        return { frames: wanted.frames };
      },
      reveal: async ({ frame, path, level }) => {
        const { roll, stock } = this.validRoll();
        if (level === "stock" && stock) await showInText(stock, uriOf(stock.file), undefined, path);
        else await showInText(roll, document.uri, level === "roll" ? undefined : frame, path);
        return {};
      },
    };
  }

  /** Spots that the survey proposes. */
  #spotHandlers(): Pick<Handlers<PreviewRequests>, "proposals" | "dismiss" | "survey"> {
    const { document } = this;
    return {
      proposals: async ({ frame }) => {
        const found = this.#tools.services.surveys.proposals(await this.readNow(), frame);
        return { surveyed: found !== undefined, ...(found ?? NO_PROPOSALS) };
      },
      dismiss: async ({ frame, kind, spot, dismissed: isDismissed }) => {
        const scan = this.validRoll().resolved.frames.find(({ id }) => id === frame)?.scans[0];
        if (!scan)
          throw new JobError({
            code: "no-frame",
            message: vscode.l10n.t("Frame {0} was not found: it was removed or renamed.", frame),
          });
        const place = kind === "light" ? kind : { scan: scan.path };
        await this.#tools.services.surveys.dismiss(fileOf(document.uri), place, spot, isDismissed);
        return {};
      },
      survey: async () => {
        // The report would open over the panel: its proposals are shown in the panel itself.
        await vscode.commands.executeCommand("rollbook.survey", document.uri, { report: false });
        return {};
      },
    };
  }
}

const NO_PROPOSALS = { film: [], light: [], dismissed: { film: [], light: [] } };

/** The name that a panel's state is kept by. */
export const memoryKey = ({ view }: PanelKind, document: vscode.TextDocument): string =>
  `${view} ${document.uri.toString()}`;

function surroundOf(document: vscode.TextDocument): number {
  return Math.min(100, Math.max(0, setting("preview.surround", document)));
}
