/** The panel of a review. */
import { errorText } from "../../scans/files/system-errors.ts";
import { recipeText } from "../files.ts";
import { relative, sep } from "node:path";
import * as vscode from "vscode";
import type { Change } from "../../recipe/diff/diff.ts";
import type { ReviewChange, ReviewEvents, ReviewPageEvents } from "../../review-report.ts";
import { createEmitter, dispatchEvent, type EventHandlers } from "../../rpc.ts";
import type { Pool } from "../../work/pool/pool.ts";
import type { History } from "../../work/review/history.ts";
import { type MadeReview, makeReview, rewordReview } from "../../work/review/review.ts";
import { openWorkspace } from "../../work/files/workspace.ts";
import type { PanelMemory } from "../panels/panel-memory.ts";
import type { EditorServices } from "../services.ts";
import { isRecipe } from "../uris.ts";
import { note, take } from "./edits.ts";
import { gitProgram } from "./git-extension.ts";
import { reviewPage } from "./page.ts";
import type { ReviewRequest } from "./request.ts";
import type { ReviewTexts } from "./texts.ts";
import { readHistoryJob } from "../../work/review/jobs.ts";

export interface ReviewTools {
  readonly services: EditorServices;
  readonly pool: Pool;
  readonly texts: ReviewTexts;
  readonly memory: PanelMemory;
  readonly dist: vscode.Uri;
}

/** Longest side of the pictures in the panel, in pixels. */
const LONGER_SIDE = 1400;
/** Milliseconds after the last key before the review is called old. */
const PAUSE = 400;

interface Made extends MadeReview {
  readonly history: History;
}

let panels = 0;

/** One review in one panel. */
export class ReviewPanel implements vscode.Disposable {
  readonly #panel: vscode.WebviewPanel;
  readonly #request: ReviewRequest;
  readonly #tools: ReviewTools;
  readonly #number = ++panels;
  readonly #subscriptions: vscode.Disposable[] = [];
  #made: Made | undefined;
  #running: AbortController | undefined;
  #begun = false;
  #stale: NodeJS.Timeout | undefined;
  readonly #emit = createEmitter<ReviewEvents>((message) => void this.#panel.webview.postMessage(message));
  readonly #events: EventHandlers<ReviewPageEvents> = {
    // A page that was hidden asks again: what is made already is shown again.
    ready: () => void this.#run(async () => (this.#made ? this.#show(this.#made) : await this.#make())),
    again: () => void this.#run(() => this.#make()),
    keep: (state) => this.#tools.memory.keep(memoryKey(this.#request), state),
    text: ({ change }) => void this.#run(() => this.#showText(change)),
    texts: ({ file }) => void this.#run(() => this.#compareTexts(file)),
    take: (wanted) => void this.#run(() => this.#take(wanted)),
    note: (place) => void this.#run(() => this.#note(place)),
  };

  /** @param kept what its page had kept before the window was reloaded */
  constructor(panel: vscode.WebviewPanel, request: ReviewRequest, tools: ReviewTools, kept: unknown) {
    this.#panel = panel;
    this.#request = request;
    this.#tools = tools;
    // Where one was before the reload counts for more than where the review was to begin.
    this.#begun = kept !== undefined;
    panel.webview.options = { enableScripts: true, localResourceRoots: [tools.dist] };
    this.#subscriptions.push(
      panel.webview.onDidReceiveMessage((message) => dispatchEvent(message, this.#events)),
      vscode.workspace.onDidChangeTextDocument(({ document, contentChanges }) => {
        if (contentChanges.length > 0 && this.#concerns(document.uri)) this.#aged();
      }),
    );
    panel.webview.html = reviewPage(panel.webview, tools.dist, request, kept);
  }

  dispose(): void {
    this.#running?.abort();
    clearTimeout(this.#stale);
    this.#tools.texts.forget(this.#number);
    for (const one of this.#subscriptions) one.dispose();
  }

  /** Does one thing that the page wants; a failure is logged and shown. */
  async #run(work: () => Promise<unknown>): Promise<void> {
    try {
      await work();
    } catch (error) {
      this.#tools.services.log.error(error instanceof Error ? error : String(error));
      void vscode.window.showErrorMessage(errorText(error));
    }
  }

  async #showText(id: string): Promise<void> {
    const place = this.#find(id)?.[1].place;
    if (place) await this.#compareTexts(place.file, place.line);
  }

  async #note({ file, frame, about }: ReviewPageEvents["note"]): Promise<void> {
    if (await note(this.#uriOf(file), frame, about)) await this.#follow();
  }

  async #take({ change: id, side }: ReviewPageEvents["take"]): Promise<void> {
    const change = this.#find(id)?.[0];
    if (!change) return;
    if (await take(change, side, (file) => this.#uriOf(file))) {
      if (this.#made?.history.states.after.kind === "disk") return await this.#follow();
      // The text is another now; the two revisions are what they were.
      return this.#emit("taken", { change: id, side });
    }
    void vscode.window.showInformationMessage(
      vscode.l10n.t("The recipe already states this value; nothing was changed."),
    );
  }

  /** Shows an edit that was made here: its words at once, its pictures when they are drawn. */
  async #follow(): Promise<void> {
    const made = this.#made;
    if (!made) return await this.#make();
    const history = withUnsaved(made.history);
    this.#made = { ...(await rewordReview(history, made, this.#only(history))), history };
    this.#show(this.#made);
    await this.#make(made);
  }

  /** The one recipe that the review is about, by its path from the root. */
  #only({ root }: History): string[] | undefined {
    const { file } = this.#request;
    return file === undefined ? undefined : [relative(root, file).split(sep).join("/")];
  }

  /**
   * Makes the review: git and the pictures in the pool's process, the comparison of texts here.
   * @param earlier a review whose pictures still hold where recipes are the same
   */
  async #make(earlier?: MadeReview): Promise<void> {
    this.#running?.abort();
    const running = new AbortController();
    this.#running = running;
    clearTimeout(this.#stale);
    const { pool, services } = this.#tools;
    const { folder, range, sinceLeft } = this.#request;
    const program = this.#request.program ?? (await gitProgram());
    try {
      const read = await pool.run(readHistoryJob, { folder, range, sinceLeft, program }, { signal: running.signal });
      const history = withUnsaved(read);
      const made = await vscode.window.withProgress(
        { location: { viewId: "rollbook.rolls" } },
        async () =>
          await makeReview(
            history,
            openWorkspace(history.root),
            pool,
            { only: this.#only(history), long: LONGER_SIDE, earlier },
            {
              signal: running.signal,
              onProgress: (done, total, frame) =>
                this.#emit("progress", { done, total, label: vscode.l10n.t("Drawing frame {0}", frame) }),
            },
          ),
      );
      if (running.signal.aborted) return;
      this.#made = { ...made, history };
      this.#show(this.#made);
    } catch (error) {
      if (running.signal.aborted) return;
      services.log.warn(errorText(error));
      this.#emit("failed", { message: errorText(error) });
    }
  }

  #show({ review, history }: Made): void {
    const { file, frame } = this.#request;
    const wanted = !this.#begun && file !== undefined && frame !== undefined;
    this.#begun = true;
    this.#panel.title = vscode.l10n.t("Review: {0}", review.before.label);
    this.#emit("review", {
      review,
      ...(wanted ? { frame: { file: relative(history.root, file).split(sep).join("/"), id: frame } } : {}),
    });
  }

  #aged(): void {
    clearTimeout(this.#stale);
    if (this.#made?.history.states.after.kind !== "disk") return;
    this.#stale = setTimeout(() => this.#emit("stale", null), PAUSE);
  }

  #concerns = (uri: vscode.Uri): boolean =>
    this.#made !== undefined &&
    uri.scheme === "file" &&
    isRecipe(uri) &&
    uri.fsPath.startsWith(this.#made.history.root);

  #find(id: string): readonly [Change, ReviewChange] | undefined {
    for (const recipe of this.#made?.recipes ?? []) {
      const report = this.#made?.review.recipes.find(({ file }) => file === recipe.file);
      const at = report?.changes.findIndex((change) => change.id === id) ?? -1;
      const [change, shown] = [recipe.changes[at], report?.changes[at]];
      if (change && shown) return [change, shown];
    }
    return undefined;
  }

  #uriOf(file: string): vscode.Uri {
    const { root } = (this.#made as Made).history;
    return vscode.Uri.file(openWorkspace(root).absolute(file));
  }

  /** The two texts side by side; the later one is the file itself where it is the working tree's. */
  async #compareTexts(file: string, line?: number): Promise<void> {
    const made = this.#made;
    if (!made || file === "") return;
    const { snapshots, states } = made.history;
    const recipe = made.recipes.find((one) => one.file === file);
    const document = (side: "before" | "after", name: string): vscode.Uri =>
      this.#tools.texts.document(this.#number, side, name, snapshots[side].recipes.get(name) ?? "");
    const left = document("before", recipe?.was ?? file);
    const isOnDisk = states.after.kind === "disk" && snapshots.after.recipes.has(file);
    const right = isOnDisk ? this.#uriOf(file) : document("after", file);
    const at = new vscode.Position(Math.max(0, (line ?? 1) - 1), 0);
    const title = `${file}: ${states.before.label} ↔ ${states.after.label}`;
    await vscode.commands.executeCommand("vscode.diff", left, right, title, { selection: new vscode.Range(at, at) });
  }
}

/** The name that a panel's state is kept by. */
export const memoryKey = (request: ReviewRequest): string => `review ${JSON.stringify(request)}`;

/** The working tree with what is typed but not saved. */
function withUnsaved(history: History): History {
  if (history.states.after.kind !== "disk") return history;
  const recipes = new Map(history.snapshots.after.recipes);
  for (const document of vscode.workspace.textDocuments) {
    if (!document.isDirty || document.uri.scheme !== "file" || !isRecipe(document.uri)) continue;
    const file = relative(history.root, document.uri.fsPath).split(sep).join("/");
    if (!file.startsWith("../")) recipes.set(file, recipeText(document));
  }
  return { ...history, snapshots: { ...history.snapshots, after: { ...history.snapshots.after, recipes } } };
}
