/** The panel of a session at the copy stand. */
import * as vscode from "vscode";
import { FOCUS_PLACES, focusOf } from "../../engine/verdict/focus.ts";
import type { StandEntry, StandEvents, StandPageEvents, StandRequests, StandScan, StandState } from "../../messages.ts";
import { parseRecipe } from "../../recipe/problems/document.ts";
import { createEmitter, createRpcServer, dispatchEvent, type EventHandlers } from "../../rpc.ts";
import { type CopyStand, openCopyStand } from "../../work/copy-stand/copy-stand.ts";
import { openPoints, reportOf } from "../../work/copy-stand/report.ts";
import { current, type Judged, type SessionScan, usedPictures } from "../../work/copy-stand/session.ts";
import type { RollView } from "../../work/copy-stand/recipe/roll-view.ts";
import { openWorkspace } from "../../work/files/workspace.ts";
import { failureText } from "../../failure.ts";
import type { Pool } from "../../work/pool/pool.ts";
import { showInText } from "../preview/recipe-text.ts";
import type { EditorServices } from "../services.ts";
import { fileOf } from "../uris.ts";
import { standPage, type StandPlaces } from "./page.ts";
import { recipeText } from "./recipe-text.ts";

/** Judged scans and positives on disk, of all sessions together. */
const MAX_BYTES = 2e9;
/** Scans whose focus the trend shows. */
const TREND = 24;

/** One session at the copy stand and its page. The session lives as long as the panel, seen or hidden. */
export class CopyStandPanel implements vscode.Disposable {
  readonly places: StandPlaces;
  readonly #panel: vscode.WebviewPanel;
  readonly #services: EditorServices;
  readonly #stand: CopyStand;
  readonly #emit = createEmitter<StandEvents>((message) => void this.#panel.webview.postMessage(message));
  readonly #subscriptions: vscode.Disposable[];
  readonly #judged = new Map<string, Judged>();
  #testing = false;
  #present = true;
  #failure: string | undefined;
  readonly #events: EventHandlers<StandPageEvents> = {
    ready: () => void this.#run(() => this.#show()),
    testing: ({ on }) => void this.#run(() => this.#setTesting(on)),
    reveal: ({ frame }) => void this.#run(() => this.#reveal(frame)),
  };

  constructor(
    panel: vscode.WebviewPanel,
    places: StandPlaces,
    services: EditorServices,
    pool: Pool,
    context: vscode.ExtensionContext,
  ) {
    this.places = places;
    this.#panel = panel;
    this.#services = services;
    const dist = vscode.Uri.joinPath(context.extensionUri, "dist");
    const folder = vscode.Uri.file(places.folder);
    const root = vscode.workspace.getWorkspaceFolder(places.roll ? vscode.Uri.file(places.roll) : folder)?.uri;
    this.#stand = openCopyStand(
      {
        folder: places.folder,
        ...(places.roll ? { recipe: recipeText(vscode.Uri.file(places.roll)) } : {}),
        ...(places.stock ? { stock: places.stock } : {}),
        cache: { folder: vscode.Uri.joinPath(context.globalStorageUri, "copy-stand").fsPath, maxBytes: MAX_BYTES },
      },
      openWorkspace((root ?? folder).fsPath),
      pool,
      {
        onArrived: (scan) => this.#emit("arrived", { scan }),
        onPositive: (scan) => this.#emit("positive", { scan }),
        onVerdict: (judged) => {
          this.#judged.set(judged.scan.name, judged);
          const { name, verdict } = judged.scan;
          void this.#run(async () => {
            await this.#show();
            this.#emit("verdict", { scan: name, verdict: verdict.word });
          });
        },
        onRecalled: () => void this.#run(() => this.#show()),
        onRenamed: () => void this.#run(() => this.#show()),
        onFolder: (present) => {
          this.#present = present;
          void this.#run(() => this.#show());
        },
        onFailure: (message) => {
          this.#failure = message;
          services.log.error(message);
          void this.#run(() => this.#show());
        },
        onIdle: () => void this.#run(() => this.#show()),
      },
    );
    const server = createRpcServer<StandRequests>(
      {
        scan: ({ scan }) => this.#scan(scan),
        positive: async ({ scan }) => withBytes(await this.#stand.positive(scan)),
        crops: ({ scan }) => this.#crops(scan),
      },
      (message) => void panel.webview.postMessage(message),
    );
    this.#subscriptions = [
      panel.webview.onDidReceiveMessage((message) => {
        if (!dispatchEvent(message, this.#events)) server.receive(message);
      }),
      vscode.workspace.onDidChangeTextDocument(
        ({ document }) => document.uri.fsPath === places.roll && void this.#run(() => this.#show()),
      ),
    ];
    panel.webview.options = { enableScripts: true, localResourceRoots: [dist] };
    panel.webview.html = standPage(panel.webview, dist, places);
  }

  reveal(): void {
    this.#panel.reveal(undefined, true);
  }

  dispose(): void {
    for (const one of this.#subscriptions) one.dispose();
    void this.#stand.close();
  }

  async #run(work: () => Thenable<unknown>): Promise<void> {
    try {
      await work();
    } catch (error) {
      this.#services.log.error(error instanceof Error ? error : String(error));
      void vscode.window.showErrorMessage(failureText(error));
    }
  }

  async #show(): Promise<void> {
    const view = await this.#stand.view();
    const session = this.#stand.session();
    const tally = await this.#stand.tally();
    const { t } = this.#services;
    const state: StandState = {
      folder: vscode.workspace.asRelativePath(this.places.folder),
      ...(this.places.roll ? { recipe: vscode.workspace.asRelativePath(this.places.roll) } : {}),
      present: this.#present,
      polling: this.#stand.polling,
      testing: this.#testing,
      entries: entriesOf(session, view),
      tally,
      points: [...(this.#failure ? [this.#failure] : []), ...openPoints(tally, t)],
      trend: session
        .flatMap(({ picture }) => (picture ? [focusOf(picture.reading)] : []))
        .slice(-TREND)
        .map((focus) =>
          Object.fromEntries(FOCUS_PLACES.flatMap((at) => (focus[at] ? [[at, focus[at].response]] : []))),
        ),
    };
    this.#emit("state", state);
  }

  async #scan(name: string): Promise<StandScan> {
    const session = this.#stand.session();
    const scan = session.findLast((one) => one.name === name);
    if (!scan) throw new Error(vscode.l10n.t("The scan {0} is no longer part of this session.", name));
    const view = await this.#stand.view();
    const judged = this.#judged.get(name) ?? { scan, role: roleIn(scan, view) };
    const { focus, reasons, role } = reportOf({ ...judged, scan }, session, this.#services.t);
    const entry = entriesOf(session, view).find((one) => one.scan === name);
    const area = scan.picture?.reading.area;
    return {
      ...(entry as StandEntry),
      role,
      reasons,
      focus,
      ...(area ? { area } : {}),
      turn: view.turn,
      mirror: view.mirror,
    };
  }

  async #crops(name: string): Promise<StandRequests["crops"]["reply"]> {
    const own = await this.#stand.crops(name);
    const others = current(this.#stand.session()).filter((one) => one.picture && one.name !== name);
    const sharpness = ({ picture }: SessionScan): number =>
      picture ? (focusOf(picture.reading).middle?.response ?? 0) : 0;
    const best = others.toSorted((a, b) => sharpness(b) - sharpness(a)).at(0);
    const bytes = best && (await this.#stand.crops(best.name));
    return {
      ...(own ? { own: plainBytes(own) } : {}),
      ...(best && bytes ? { best: { scan: best.name, bytes: plainBytes(bytes) } } : {}),
    };
  }

  #setTesting(on: boolean): Promise<void> {
    this.#testing = on;
    this.#stand.setTesting(on);
    return this.#show();
  }

  async #reveal(frame: string | undefined): Promise<void> {
    const { roll } = this.places;
    if (!roll) return;
    const uri = vscode.Uri.file(roll);
    const text = (await vscode.workspace.openTextDocument(uri)).getText();
    await showInText(parseRecipe(text, { file: fileOf(uri), kind: "roll" }), uri, frame, undefined);
  }
}

const withBytes = (bytes: Uint8Array | undefined): { bytes?: Uint8Array } =>
  bytes ? { bytes: plainBytes(bytes) } : {};

/** A Buffer turns itself into JSON on its way to the page; a plain array of bytes crosses as it is. */
const plainBytes = (bytes: Uint8Array): Uint8Array => new Uint8Array(bytes);

function entriesOf(session: readonly SessionScan[], view: RollView): StandEntry[] {
  const frames = new Map(usedPictures(session, view).map(({ name, frame }) => [name, frame] as const));
  return current(session).map(({ name, kind, verdict, frame }) => {
    const shown = frames.get(name) ?? frame;
    return {
      scan: name,
      kind,
      verdict: verdict.word,
      ...(shown === undefined ? {} : { frame: shown }),
      used: kind !== "picture" || frames.has(name),
    };
  });
}

/** What became of a scan that was judged in an earlier session. */
function roleIn({ name, frame }: SessionScan, view: RollView): Judged["role"] {
  const own = view.frames.find(({ scans, unused }) => scans.includes(name) || unused.includes(name));
  if (!own || frame === undefined) return { role: "none" };
  const [used] = own.scans;
  if (own.unused.includes(name) && used !== undefined)
    return { role: "retake", frame: own.id, earlier: used, kept: "earlier" };
  return { role: "frame", frame: own.id };
}
