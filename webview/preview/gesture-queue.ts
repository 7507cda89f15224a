/**
 * Gestures that may come faster than the text takes them, such as clicks on specks. They are written one after the other,
 * each made from the recipe as the one before has left it, so that none is lost: each is one edit and one step of undo.
 */
import type { FrameEntry, ValueEdit } from "../../extension/messages.ts";
import type { Store } from "../state/store.ts";
import type { Model, PendingSpot } from "./model.ts";

export interface QueuedGesture {
  readonly label: string;
  readonly edits: readonly ValueEdit[];
}

/** Milliseconds that the text's new state may take to come back after an edit. */
const STATE_LIMIT = 10_000;

export class GestureQueue {
  readonly #store: Store<Model>;
  readonly #write: (label: string, edits: readonly ValueEdit[]) => Promise<number | undefined>;
  #last: Promise<void> = Promise.resolve();

  /** @param write writes an edit; resolves with the version of the text that has it, undefined where it was refused */
  constructor(store: Store<Model>, write: (label: string, edits: readonly ValueEdit[]) => Promise<number | undefined>) {
    this.#store = store;
    this.#write = write;
  }

  /**
   * @param frame the frame that the gesture was made on
   * @param make the gesture, from the frame as it is when its turn comes; undefined where nothing is left to do
   * @param pending what is shown of it until it is written
   */
  add(frame: string, make: (entry: FrameEntry) => QueuedGesture | undefined, pending?: PendingSpot): Promise<void> {
    if (pending) this.#store.set({ pending: [...this.#store.get().pending, pending] });
    const done = this.#last.then(async () => {
      const entry = this.#store.get().roll?.frames.find(({ id }) => id === frame);
      const gesture = entry && make(entry);
      const version = gesture && (await this.#write(gesture.label, gesture.edits));
      if (version !== undefined) await this.#stateOf(version);
      if (pending) this.#store.set({ pending: this.#store.get().pending.filter((one) => one !== pending) });
    });
    this.#last = done.catch(() => undefined);
    return done;
  }

  /** Resolves when the roll has come back with a version of the text. */
  #stateOf(version: number): Promise<void> {
    const isThere = (): boolean => (this.#store.get().roll?.version ?? 0) >= version;
    if (isThere()) return Promise.resolve();
    return new Promise((done) => {
      const finish = (): void => {
        clearTimeout(timer);
        forget();
        done();
      };
      const timer = setTimeout(finish, STATE_LIMIT);
      const forget = this.#store.on(() => {
        if (isThere()) finish();
      });
    });
  }
}
