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
  readonly offer?: Offer;
}

/** A draft that waits for an answer. */
export interface Offer {
  readonly text: string;
  readonly label: string;
  /** The edits that write it into a roll as it is then. */
  edits(frames: readonly FrameEntry[]): readonly ValueEdit[];
  /** Whether it holds for a roll that was changed since. */
  holds(frames: readonly FrameEntry[]): boolean;
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
  show(looks: ReadonlyMap<string, FrameLook>, offer?: Offer): void;
  /** Writes a gesture: one edit, one step of undo. */
  commit(label: string, edits: readonly ValueEdit[]): Promise<void>;
  /** Does something that may fail; the reason is shown. @returns undefined where it failed */
  attempt<T>(work: () => Promise<T>): Promise<T | undefined>;
  /** Writes a gesture whose edits rest on the roll's values, when all that was written before is in the roll. */
  commitInTurn(label: string, edits: () => readonly ValueEdit[]): Promise<void>;
  /** Until what was written is in the roll that is shown. */
  settled(): Promise<void>;
  announce(text: string): void;
  start(): Promise<void>;
}

/** Milliseconds between two looks whether an edit has arrived, and how many of them there are. */
const LOOK_EVERY = 20;
const MAX_LOOKS = 500;

export const makeSheetSession = (host: Host, client: RpcClient<SheetRequests>): SheetSession => new Sheet(host, client);

class Sheet implements SheetSession {
  readonly store: Store<SheetModel>;
  readonly client: RpcClient<SheetRequests>;
  readonly events: EventHandlers<PreviewEvents>;
  readonly #host: Host;
  /** Edits that no answer came to yet, and the version of the last one that was answered. */
  #writing = 0;
  #written = 0;
  /** The last gesture that waits for its turn. */
  #turn: Promise<void> = Promise.resolve();

  constructor(host: Host, client: RpcClient<SheetRequests>) {
    this.#host = host;
    this.client = client;
    const ui = restoredSheet(host.getState());
    this.store = makeStore<SheetModel>({
      ui,
      frames: [],
      settings: { surround: 50 },
      selection: { ...EMPTY, ...(ui.focus === undefined ? {} : { focus: ui.focus }) },
      beside: [],
      announcement: "",
    });
    this.events = {
      settings: (settings) => this.store.set({ settings }),
      surveyed: () => void this.#count(),
      show: ({ frame }) => this.#moveFocus(frame),
      roll: (roll) => {
        const { draft } = this.store.get();
        const isKept = !roll.stale && draft?.offer?.holds(roll.frames) === true;
        this.#arrange({ roll, draft: isKept ? draft : undefined });
      },
    };
  }

  ui(change: Partial<SheetUi>): void {
    this.#arrange({ ui: this.#remember({ ...this.store.get().ui, ...change }) });
  }

  select(selection: Selection): void {
    const { selection: before, ui: now } = this.store.get();
    this.store.set({ selection, failure: undefined });
    if (selection.focus === before.focus) return;
    this.store.set({ ui: this.#remember({ ...now, focus: selection.focus }) });
    if (selection.focus !== undefined)
      void this.client.request("select", { frame: selection.focus }).catch(() => undefined);
  }

  targets(): readonly FrameEntry[] {
    const { selection, frames } = this.store.get();
    const ids = targets(
      selection,
      frames.map(({ id }) => id),
    );
    return frames.filter(({ id }) => ids.includes(id));
  }

  focused(): FrameEntry | undefined {
    const { selection, frames } = this.store.get();
    return frames.find(({ id }) => id === selection.focus);
  }

  lookOf(frame: FrameEntry): FrameLook {
    return this.store.get().draft?.looks.get(frame.id) ?? frame.look;
  }

  show(looks: ReadonlyMap<string, FrameLook>, offer?: Offer): void {
    this.store.set({ draft: { looks, offer }, failure: undefined });
  }

  async commit(label: string, edits: readonly ValueEdit[]): Promise<void> {
    if (edits.length === 0) return this.#dropDraft();
    this.#writing++;
    try {
      const { version } = await this.client.request("edit", { label, edits });
      this.#written = Math.max(this.#written, version);
      this.store.set({ announcement: label });
      // The roll may have arrived before the answer.
      if ((this.store.get().roll?.version ?? 0) >= version) this.#dropDraft();
    } catch (error) {
      this.#dropDraft();
      this.#fail(error);
    } finally {
      this.#writing--;
    }
  }

  commitInTurn(label: string, edits: () => readonly ValueEdit[]): Promise<void> {
    this.#turn = this.#turn.then(() => this.settled()).then(() => this.commit(label, edits()));
    return this.#turn;
  }

  async settled(): Promise<void> {
    const isSettled = (): boolean => this.#writing === 0 && (this.store.get().roll?.version ?? 0) >= this.#written;
    for (let k = 0; k < MAX_LOOKS && !isSettled(); k++) await new Promise((done) => setTimeout(done, LOOK_EVERY));
  }

  /** What was shown while a value moved; what waits for an answer goes on waiting. */
  #dropDraft(): void {
    if (!this.store.get().draft?.offer) this.store.set({ draft: undefined });
  }

  async attempt<T>(work: () => Promise<T>): Promise<T | undefined> {
    try {
      return await work();
    } catch (error) {
      this.#fail(error);
      return undefined;
    }
  }

  announce(announcement: string): void {
    this.store.set({ announcement });
  }

  async start(): Promise<void> {
    await this.attempt(async () => {
      const { roll, settings, frame } = await this.client.request("ready", { frame: this.store.get().selection.focus });
      this.events.settings?.(settings);
      this.events.roll?.(roll);
      if (frame !== undefined) this.events.show?.({ frame });
      await this.#count();
    });
  }

  /** Arranges the frames again, and takes out of the selection what is not shown any more. */
  #arrange(change: Partial<SheetModel>): void {
    const now = { ...this.store.get(), ...change };
    const frames = arranged(now.roll?.frames ?? [], now.ui, now.counts);
    const ids = frames.map(({ id }) => id);
    const selection = frames.length > 0 || now.roll ? pruned(now.selection, ids) : now.selection;
    this.store.set({ ...change, frames, selection, beside: now.beside.filter((id) => ids.includes(id)) });
  }

  #remember(next: SheetUi): SheetUi {
    this.#host.setState(next);
    return next;
  }

  #moveFocus(frame: string): void {
    const { selection, frames } = this.store.get();
    if (frames.some(({ id }) => id === frame)) this.store.set({ selection: { ...selection, focus: frame } });
  }

  async #count(): Promise<void> {
    const found = await this.client.request("findings", {}).catch(() => undefined);
    if (found) this.#arrange({ counts: found.surveyed ? found.counts : undefined });
  }

  #fail(error: unknown): void {
    const failure = reasonOf(error);
    this.store.set({ failure, announcement: failure });
  }
}

/** How many frames are meant, for labels and announcements. */
export const countText = (count: number): string => (count === 1 ? t("1 frame") : t("{0} frames", count));
