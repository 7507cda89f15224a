/** The panel's one state, and what can be done with it. Everything that is drawn follows from `Model`. */
import type { Spot } from "../../extension/engine/image/spot.ts";
import type { FrameLook } from "../../extension/engine/types.ts";
import type { Area } from "../../extension/engine/types.ts";
import { JobError } from "../../extension/failure.ts";
import type {
  Cascade,
  FrameEntry,
  PanelSettings,
  PreviewEvents,
  PreviewRequests,
  RollState,
  ValueEdit,
} from "../../extension/messages.ts";
import type { EventHandlers, RpcClient } from "../../extension/rpc.ts";
import { type Source, sourceOf } from "../render/source.ts";
import type { Point } from "../state/affine.ts";
import { makeStore, type Store } from "../state/store.ts";
import { restored, type UiState } from "../state/ui-state.ts";
import { t } from "../translate.ts";
import { reasonOf } from "../reason.ts";

/** What a gesture shows before the text has it. */
export interface Draft {
  readonly look?: FrameLook;
  readonly area?: Area;
  /** Values by path key, for the controls. */
  readonly values?: Readonly<Record<string, unknown>>;
}

export interface Model {
  readonly ui: UiState;
  readonly roll?: RollState;
  readonly settings: PanelSettings;
  /** Proxy of the frame in view: its thumbnail, or the last good one, while another loads. */
  readonly source?: Source;
  /** Whether `source` shows the frame in view. */
  readonly current: boolean;
  /** Full-resolution part of the scan, where one is zoomed in. */
  readonly detail?: Source;
  /** Why there is no picture of this frame. */
  readonly failure?: string;
  readonly loading: boolean;
  readonly draft?: Draft;
  /** A gesture that could not be written. */
  readonly editFailure?: string;
  /** The compare key is held. */
  readonly held: boolean;
  readonly kept?: FrameLook;
  /** Where the pointer, or the keyboard's cross, is: fractions of the scan. */
  readonly pointer?: Point;
  readonly cascades: Readonly<Record<string, Cascade>>;
  /** Spots that are proposed in the picture; `chosen` is the one that the list is at. */
  readonly proposals?: Proposals;
  /** Counts surveys: proposals of an earlier one are asked for again. */
  readonly surveys: number;
  /** Spoken to screen readers. */
  readonly announcement: string;
}

export interface Proposals {
  readonly spots: readonly Spot[];
  readonly chosen?: number;
}

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
  wantCascades(paths: readonly (readonly (string | number)[])[]): void;
  /** Tries again to fetch the frame's picture, after it failed. */
  retry(): void;
  /** Thumbnails by their source, for a first look at a frame while its picture is prepared. */
  readonly thumbnails: Map<string, Source>;
  announce(text: string): void;
  readonly events: EventHandlers<PreviewEvents>;
}

export const keyOf = (path: readonly (string | number)[]): string => path.join(".");

/** Decoding a large scan on a slow disk takes its time. */
const PICTURE_LIMIT = 180_000;

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

export function makeSession(host: Host, client: RpcClient<PreviewRequests>): Session {
  const store = makeStore<Model>({
    ui: restored(host.getState()),
    settings: { surround: 50 },
    current: false,
    loading: false,
    held: false,
    cascades: {},
    surveys: 0,
    announcement: "",
  });
  let loading: AbortController | undefined;
  /** What could not be had: it is not asked for again until it changes, or somebody says so. */
  let failed: string | undefined;
  const thumbnails = new Map<string, Source>();

  const entryOf = (id: string | undefined): FrameEntry | undefined => {
    const frames = store.get().roll?.frames;
    return frames?.find((f) => f.id === id) ?? frames?.[0];
  };
  const frame = (): FrameEntry | undefined => entryOf(store.get().ui.frame);

  const fetchCascades = cascadeFetcher(store, client, frame);

  function ui(change: Partial<UiState>): void {
    const now = { ...store.get().ui, ...change };
    store.set({ ui: now });
    host.setState(now);
  }

  function load(): void {
    const entry = frame();
    const { source, current, roll } = store.get();
    if (!entry || !roll?.trusted || entry.source === failed || (entry.source === source?.key && current)) return;
    loading?.abort();
    const controller = (loading = new AbortController());
    failed = undefined;
    store.set({ loading: true, failure: undefined, detail: undefined, current: false });
    client.request("picture", { frame: entry.id }, { signal: controller.signal, limit: PICTURE_LIMIT }).then(
      (proxy) => {
        if (loading !== controller) return;
        const made = sourceOf(proxy);
        store.set({ source: made, current: true, loading: false, failure: undefined });
        // The recipe moved on while the scan was decoded.
        if (frame()?.source !== made.key) load();
      },
      (error: unknown) => {
        if (loading !== controller || (error instanceof JobError && error.code === "cancelled")) return;
        failed = entry.source;
        const failure = reasonOf(error);
        store.set({ loading: false, failure, announcement: failure });
      },
    );
  }

  function showRoll(roll: RollState): void {
    store.set({ roll, draft: undefined });
    const entry = frame();
    if (entry && entry.id !== store.get().ui.frame) ui({ frame: entry.id });
    load();
    fetchCascades();
  }

  const session: Session = {
    store,
    client,
    ui,
    frame,
    look: () => store.get().draft?.look ?? frame()?.look,
    select(id, notifyHost = true) {
      if (id === store.get().ui.frame) return;
      ui({ frame: id });
      const entry = entryOf(id);
      failed = undefined;
      loading?.abort();
      store.set({
        draft: undefined,
        editFailure: undefined,
        failure: undefined,
        pointer: undefined,
        detail: undefined,
        current: false,
        loading: false,
        source: entry && thumbnails.get(entry.source),
      });
      const scan = entry?.scans[0];
      store.set({ announcement: [t("Frame {0}", id), ...(scan ? [scan] : [])].join(", ") });
      load();
      fetchCascades();
      if (notifyHost) void client.request("select", { frame: id }).catch(() => undefined);
    },
    step(by) {
      const { roll } = store.get();
      const at = roll?.frames.findIndex((f) => f.id === frame()?.id) ?? -1;
      const next = roll?.frames[at + by];
      if (next) session.select(next.id);
    },
    preview: (draft) => store.set({ draft, editFailure: undefined }),
    async commit(label, edits, draft) {
      if (edits.length === 0) return store.set({ draft: undefined });
      if (draft) store.set({ draft });
      try {
        const { version } = await client.request("edit", { label, edits });
        store.set({ announcement: label });
        // The roll may have arrived before the answer.
        if ((store.get().roll?.version ?? 0) >= version) store.set({ draft: undefined });
      } catch (error) {
        const editFailure = reasonOf(error);
        store.set({ draft: undefined, editFailure, announcement: editFailure });
      }
    },
    wantCascades: fetchCascades,
    retry() {
      failed = undefined;
      load();
    },
    thumbnails,
    announce: (announcement) => store.set({ announcement }),
    events: {
      settings: (settings) => store.set({ settings }),
      surveyed: () => store.set({ surveys: store.get().surveys + 1 }),
      show: (wanted) => session.select(wanted.frame, false),
      roll: showRoll,
    },
  };
  return session;
}
