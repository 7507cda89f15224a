/** What is done with the panel's state: choosing frames, showing gestures, and writing them into the recipe. */
import type { FrameLook } from "../../extension/engine/types.ts";
import type { FrameEntry, PreviewEvents, PreviewRequests, RollState, ValueEdit } from "../../extension/messages.ts";
import type { EventHandlers, RpcClient } from "../../extension/rpc.ts";
import type { Source } from "../render/source.ts";
import { makeStore, type Store } from "../state/store.ts";
import { restored, type UiState } from "../state/ui-state.ts";
import { t } from "../translate.ts";
import { reasonOf } from "../reason.ts";
import { GestureQueue } from "./gesture-queue.ts";
import type { Draft, Model, Question } from "./model.ts";
import { PictureLoader } from "./picture-loader.ts";

/** What the editor gives a webview. */
export interface Host {
  postMessage(message: unknown): void;
  getState(): unknown;
  setState(state: unknown): void;
}

export interface Session {
  readonly store: Store<Model>;
  readonly client: RpcClient<PreviewRequests>;
  ui(change: Partial<UiState>): void;
  frame(): FrameEntry | undefined;
  /** The look in force: of the gesture under way, or of the recipe. */
  look(): FrameLook | undefined;
  select(id: string, notifyHost?: boolean): void;
  step(by: number): void;
  /** Shows a gesture without writing it. */
  preview(draft: Draft): void;
  /** Writes a gesture: one edit, one step of undo. */
  commit(label: string, edits: readonly ValueEdit[], draft?: Draft): Promise<void>;
  /** Writes gestures that come faster than they are written, one after the other: see `GestureQueue`. */
  readonly queue: GestureQueue;
  wantCascades(paths: readonly (readonly (string | number)[])[]): void;
  /** Tries again to fetch the frame's picture, after it failed. */
  retry(): void;
  /** The frames beside the one in view whose pictures are there; the one that is likely to come next is the first. */
  neighbours(): readonly { readonly entry: FrameEntry; readonly source: Source }[];
  /** Thumbnails by their source, for a first look at a frame while its picture is prepared. */
  readonly thumbnails: Map<string, Source>;
  /** Puts a question over the picture; another gesture or frame drops it. */
  ask(question: Question): void;
  announce(text: string): void;
  readonly events: EventHandlers<PreviewEvents>;
}

export const keyOf = (path: readonly (string | number)[]): string => path.join(".");

type Paths = readonly (readonly (string | number)[])[];

/** Returns a function that asks where the frame's values come from, one request at a time; `paths` sets which values. */
function cascadeFetcher(
  store: Store<Model>,
  client: RpcClient<PreviewRequests>,
  frame: () => FrameEntry | undefined,
): (paths?: Paths) => void {
  let wanted: Paths = [];
  let isRequesting = false;
  let isStale = false;

  function fetchCascades(): void {
    const entry = frame();
    if (!entry || wanted.length === 0) return;
    if (isRequesting) {
      isStale = true;
      return;
    }
    isRequesting = true;
    isStale = false;
    const paths = wanted;
    client
      .request("cascades", { frame: entry.id, paths })
      .then(
        ({ cascades }) => {
          if (frame()?.id === entry.id)
            store.set({ cascades: Object.fromEntries(paths.map((p, i) => [keyOf(p), cascades[i]])) });
        },
        () => undefined, // the values stay as they were; the next state of the roll asks again
      )
      .finally(() => {
        isRequesting = false;
        if (isStale) fetchCascades();
      });
  }
  return (paths) => {
    if (paths) wanted = paths;
    fetchCascades();
  };
}

/** The state of a panel that has just opened; `kept` is what the editor restores over a reload. */
const freshModel = (kept: unknown): Model => ({
  ui: restored(kept),
  settings: { surround: 50 },
  current: false,
  loading: false,
  showsOther: false,
  cascades: {},
  pending: [],
  surveys: 0,
  announcement: "",
});

/**
 * Writes a gesture into the recipe, and drops its draft once the roll has come back with it.
 * @returns the version of the text that has it; undefined where nothing was written
 */
async function writeGesture(
  { store, client }: Pick<Session, "store" | "client">,
  label: string,
  edits: readonly ValueEdit[],
  draft: Draft | undefined,
): Promise<number | undefined> {
  if (edits.length === 0) {
    store.set({ draft: undefined });
    return undefined;
  }
  if (draft) store.set({ draft });
  try {
    const { version } = await client.request("edit", { label, edits });
    store.set({ announcement: label });
    // The roll may have arrived before the answer.
    if ((store.get().roll?.version ?? 0) >= version) store.set({ draft: undefined });
    return version;
  } catch (error) {
    const editFailure = reasonOf(error);
    store.set({ draft: undefined, editFailure, announcement: editFailure });
    return undefined;
  }
}

export function makeSession(host: Host, client: RpcClient<PreviewRequests>): Session {
  const store = makeStore<Model>(freshModel(host.getState()));
  const thumbnails = new Map<string, Source>();
  const entryOf = (id: string | undefined): FrameEntry | undefined => {
    const frames = store.get().roll?.frames;
    return frames?.find((f) => f.id === id) ?? frames?.[0];
  };
  const frame = (): FrameEntry | undefined => entryOf(store.get().ui.frame);
  const pictures = new PictureLoader(store, client, frame);
  const fetchCascades = cascadeFetcher(store, client, frame);

  function ui(change: Partial<UiState>): void {
    const now = { ...store.get().ui, ...change };
    store.set({ ui: now });
    host.setState(now);
  }

  function showRoll(roll: RollState): void {
    store.set({ roll, draft: undefined });
    const entry = frame();
    if (entry && entry.id !== store.get().ui.frame) ui({ frame: entry.id });
    pictures.load();
    fetchCascades();
  }

  function select(id: string, notifyHost = true): void {
    if (id === store.get().ui.frame) return;
    const frames = store.get().roll?.frames ?? [];
    const way = frames.findIndex((f) => f.id === id) - frames.findIndex((f) => f.id === frame()?.id);
    ui({ frame: id });
    pictures.cancel(way < 0 ? -1 : 1);
    const entry = entryOf(id);
    const known = entry && pictures.kept(entry);
    store.set({
      draft: undefined,
      question: undefined,
      editFailure: undefined,
      failure: undefined,
      pointer: undefined,
      detail: undefined,
      current: known !== undefined,
      loading: false,
      source: known ?? (entry && thumbnails.get(entry.source)),
      announcement: [t("Frame {0}", id), ...(entry?.scans.slice(0, 1) ?? [])].join(", "),
    });
    pictures.load();
    fetchCascades();
    if (notifyHost) void client.request("select", { frame: id }).catch(() => undefined);
  }

  const commit = (label: string, edits: readonly ValueEdit[], draft?: Draft): Promise<number | undefined> =>
    writeGesture({ store, client }, label, edits, draft);
  const queue = new GestureQueue(store, (label, edits) => commit(label, edits));

  return {
    store,
    client,
    queue,
    ui,
    frame,
    look: () => store.get().draft?.look ?? frame()?.look,
    select,
    step(by) {
      const { roll } = store.get();
      const at = roll?.frames.findIndex((f) => f.id === frame()?.id) ?? -1;
      const next = roll?.frames[at + by];
      if (next) select(next.id);
    },
    preview: (draft) => store.set({ draft, editFailure: undefined, question: undefined }),
    async commit(label, edits, draft) {
      await commit(label, edits, draft);
    },
    wantCascades: fetchCascades,
    retry: () => pictures.retry(),
    neighbours: () => pictures.neighbours(),
    thumbnails,
    ask: (question) => store.set({ question, announcement: question.text }),
    announce: (announcement) => store.set({ announcement }),
    events: {
      settings: (settings) => store.set({ settings }),
      surveyed: () => store.set({ surveys: store.get().surveys + 1 }),
      show: (wanted) => select(wanted.frame, false),
      roll: showRoll,
    },
  };
}
