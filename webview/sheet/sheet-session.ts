/** The sheet's one state, and what can be done with it. Everything that is drawn follows from `SheetModel`. */
import type { FrameLook } from "../../extension/engine/types.ts";
import type {
  EarlierFrame,
  FrameEntry,
  PanelSettings,
  PreviewEvents,
  RollState,
  SheetRequests,
  ValueEdit,
} from "../../extension/messages.ts";
import type { EventHandlers, RpcClient } from "../../extension/rpc.ts";
import type { Host } from "../preview/session.ts";
import { reasonOf } from "../reason.ts";
import { arranged } from "../state/sheet/arrangement.ts";
import { EMPTY, pruned, type Selection, targets } from "../state/sheet/selection.ts";
import { makeStore, type Store } from "../state/store.ts";
import { t } from "../translate.ts";
import { restoredSheet, type SheetUi } from "./sheet-state.ts";

/** Looks that are shown and not written: while a value moves, or until somebody agrees. */
export interface Draft {
  readonly looks: ReadonlyMap<string, FrameLook>;
  /** For a draft that waits for an answer: what it would do, and the edit. */
  readonly offer?: { readonly text: string; readonly label: string; readonly edits: readonly ValueEdit[] };
}

export interface SheetModel {
  readonly ui: SheetUi;
  readonly roll?: RollState;
  /** The frames that are shown, in that order. */
  readonly frames: readonly FrameEntry[];
  readonly settings: PanelSettings;
  /** Findings of each frame; undefined where the scans were not surveyed. */
  readonly counts?: Readonly<Record<string, number>>;
  readonly selection: Selection;
  readonly draft?: Draft;
  /** The roll in another revision, and whether it is shown in place of the present one. */
  readonly earlier?: {
    readonly label: string;
    readonly frames: ReadonlyMap<string, EarlierFrame>;
    readonly shown: boolean;
  };
  /** Frames that are compared side by side, in place of the grid. */
  readonly beside: readonly string[];
  /** What could not be done. */
  readonly failure?: string;
  /** Spoken to screen readers. */
  readonly announcement: string;
}

export interface SheetSession {
  readonly store: Store<SheetModel>;
  readonly client: RpcClient<SheetRequests>;
  readonly events: EventHandlers<PreviewEvents>;
  ui(change: Partial<SheetUi>): void;
  select(selection: Selection): void;
  /** The frames that work is done on: those selected, else the one with the focus. */
  targets(): readonly FrameEntry[];
  focused(): FrameEntry | undefined;
  /** The look that a frame is shown with. */
  lookOf(frame: FrameEntry): FrameLook;
  show(looks: ReadonlyMap<string, FrameLook>, offer?: Draft["offer"]): void;
  /** Writes a gesture: one edit, one step of undo. */
  commit(label: string, edits: readonly ValueEdit[]): Promise<void>;
  /** Does something that may fail; the reason is shown. @returns undefined where it failed */
  attempt<T>(work: () => Promise<T>): Promise<T | undefined>;
  announce(text: string): void;
  start(): Promise<void>;
}

export function makeSheetSession(host: Host, client: RpcClient<SheetRequests>): SheetSession {
  const ui = restoredSheet(host.getState());
  const store = makeStore<SheetModel>({
    ui,
    frames: [],
    settings: { surround: 50 },
    selection: { ...EMPTY, ...(ui.focus === undefined ? {} : { focus: ui.focus }) },
    beside: [],
    announcement: "",
  });

  /** Arranges the frames again, and takes out of the selection what is not shown any more. */
  function arrange(change: Partial<SheetModel>): void {
    const now = { ...store.get(), ...change };
    const frames = arranged(now.roll?.frames ?? [], now.ui, now.counts);
    const ids = frames.map(({ id }) => id);
    const selection = frames.length > 0 || now.roll ? pruned(now.selection, ids) : now.selection;
    store.set({ ...change, frames, selection, beside: now.beside.filter((id) => ids.includes(id)) });
  }

  function keep(next: SheetUi): SheetUi {
    host.setState(next);
    return next;
  }

  async function count(): Promise<void> {
    const found = await client.request("findings", {}).catch(() => undefined);
    if (found) arrange({ counts: found.surveyed ? found.counts : undefined });
  }

  const fail = (error: unknown): void => {
    const failure = reasonOf(error);
    store.set({ failure, announcement: failure });
  };

  const session: SheetSession = {
    store,
    client,
    ui: (change) => arrange({ ui: keep({ ...store.get().ui, ...change }) }),
    select(selection) {
      const { selection: before, ui: now } = store.get();
      store.set({ selection, failure: undefined });
      if (selection.focus === before.focus) return;
      store.set({ ui: keep({ ...now, focus: selection.focus }) });
      if (selection.focus !== undefined)
        void client.request("select", { frame: selection.focus }).catch(() => undefined);
    },
    targets() {
      const { selection, frames } = store.get();
      const ids = targets(
        selection,
        frames.map(({ id }) => id),
      );
      return frames.filter(({ id }) => ids.includes(id));
    },
    focused() {
      const { selection, frames } = store.get();
      return frames.find(({ id }) => id === selection.focus);
    },
    lookOf: (frame) => store.get().draft?.looks.get(frame.id) ?? frame.look,
    show: (looks, offer) => store.set({ draft: { looks, offer }, failure: undefined }),
    async commit(label, edits) {
      if (edits.length === 0) return store.set({ draft: undefined });
      try {
        const { version } = await client.request("edit", { label, edits });
        store.set({ announcement: label });
        // The roll may have arrived before the answer.
        if ((store.get().roll?.version ?? 0) >= version) store.set({ draft: undefined });
      } catch (error) {
        store.set({ draft: undefined });
        fail(error);
      }
    },
    async attempt(work) {
      try {
        return await work();
      } catch (error) {
        fail(error);
        return undefined;
      }
    },
    announce: (announcement) => store.set({ announcement }),
    async start() {
      await session.attempt(async () => {
        const { roll, settings, frame } = await client.request("ready", { frame: store.get().selection.focus });
        session.events.settings?.(settings);
        session.events.roll?.(roll);
        if (frame !== undefined) session.events.show?.({ frame });
        await count();
      });
    },
    events: {
      settings: (settings) => store.set({ settings }),
      surveyed: () => void count(),
      show({ frame }) {
        const { selection, frames } = store.get();
        if (frames.some(({ id }) => id === frame)) store.set({ selection: { ...selection, focus: frame } });
      },
      roll(roll) {
        arrange({ roll, draft: undefined });
      },
    },
  };
  return session;
}

/** How many frames are meant, for labels and announcements. */
export const countText = (count: number): string => (count === 1 ? t("1 frame") : t("{0} frames", count));
