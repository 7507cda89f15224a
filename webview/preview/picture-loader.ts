/** Fetches the picture of the frame in view, and ahead of need those of its neighbours. */
import type { FrameEntry, PreviewRequests } from "../../extension/messages.ts";
import type { RpcClient } from "../../extension/rpc.ts";
import { isCancelled, reasonOf } from "../reason.ts";
import { sourceOf, type Source } from "../render/source.ts";
import type { Store } from "../state/store.ts";
import type { Model } from "./model.ts";
import { PictureCache } from "./picture-cache.ts";

/** Milliseconds; decoding a large scan on a slow disk takes its time. */
const PICTURE_LIMIT = 180_000;
/** Rest after a picture has come before its neighbours are fetched: its detail and its thumbnails go first. */
const PREFETCH_DELAY = 150;

/** What a frame's picture is taken from: with other spots or another look it is still the picture of these scans. */
const scansOf = (entry: FrameEntry): string => JSON.stringify([entry.id, entry.scans]);

interface Request {
  readonly source: string;
  readonly controller: AbortController;
  readonly made: Promise<Source>;
}

export class PictureLoader {
  readonly #store: Store<Model>;
  readonly #client: RpcClient<PreviewRequests>;
  readonly #frame: () => FrameEntry | undefined;
  readonly #cache = new PictureCache();
  /** The request for the frame in view, and the one for a neighbour. */
  #loading?: Request;
  #ahead?: Request;
  #timer?: ReturnType<typeof setTimeout>;
  /** The source that failed: it is not asked for again until the recipe names another, or `retry` is called. */
  #failed?: string;
  /** The scans that the picture on the stage was taken from. */
  #shown?: string;
  /** The way of the last step: the frames in it are fetched first. */
  #direction: 1 | -1 = 1;
  /** Neighbours that could not be fetched: they are asked for again when they are chosen. */
  readonly #refused = new Set<string>();

  /** `frame` returns the frame in view. */
  constructor(store: Store<Model>, client: RpcClient<PreviewRequests>, frame: () => FrameEntry | undefined) {
    this.#store = store;
    this.#client = client;
    this.#frame = frame;
  }

  /** The picture of a frame, where it was fetched before. */
  kept(entry: FrameEntry): Source | undefined {
    return this.#cache.get(entry.source);
  }

  /** The frames beside the one in view whose pictures were fetched; the next one in the way of the last step first. */
  neighbours(): readonly { readonly entry: FrameEntry; readonly source: Source }[] {
    return this.#beside([this.#direction, -this.#direction]).flatMap((entry) => {
      const source = this.#cache.peek(entry.source);
      return source ? [{ entry, source }] : [];
    });
  }

  /** The frames that lie so far from the one in view, where there are any. */
  #beside(distances: readonly number[]): readonly FrameEntry[] {
    const frames = this.#store.get().roll?.frames ?? [];
    const at = frames.findIndex((f) => f.id === this.#frame()?.id);
    return at < 0 ? [] : distances.flatMap((by) => frames[at + by] ?? []);
  }

  /** Fetches the picture, unless it is shown already or has failed. */
  load(): void {
    const entry = this.#frame();
    const { source, current, roll } = this.#store.get();
    if (!entry || !roll?.trusted || entry.source === this.#failed) return;
    const known = this.#cache.get(entry.source);
    if (known || (entry.source === source?.key && current)) {
      this.#abortLoading();
      this.#shown = scansOf(entry);
      if (known && (source !== known || !current || this.#store.get().loading))
        this.#store.set({ source: known, current: true, loading: false, failure: undefined });
      return this.#planPrefetch();
    }
    if (this.#loading?.source === entry.source) return;
    this.#abortLoading();
    this.#failed = undefined;
    // Other spots are no other picture: gestures go on while it is made again.
    const isSame = current && this.#shown === scansOf(entry);
    this.#store.set({ loading: true, failure: undefined, ...(isSame ? {} : { detail: undefined, current: false }) });
    const request = this.#takeAhead(entry) ?? this.#request(entry);
    this.#loading = request;
    request.made.then(
      (made) => {
        if (this.#loading !== request) return;
        this.#loading = undefined;
        this.#shown = scansOf(entry);
        this.#store.set({ source: made, current: true, loading: false, failure: undefined });
        // The recipe moved on while the scan was decoded.
        if (this.#frame()?.source === made.key) this.#planPrefetch();
        else this.load();
      },
      (error: unknown) => {
        if (this.#loading !== request || isCancelled(error)) return;
        this.#loading = undefined;
        this.#failed = entry.source;
        const failure = reasonOf(error);
        this.#store.set({ loading: false, failure, announcement: failure });
      },
    );
  }

  /** Gives up the picture that is being fetched, because another frame comes into view. */
  cancel(direction: 1 | -1 = 1): void {
    this.#direction = direction;
    this.#failed = undefined;
    clearTimeout(this.#timer);
    this.#abortLoading();
  }

  /** Asks once more for a picture that failed. */
  retry(): void {
    this.#failed = undefined;
    this.load();
  }

  #request({ id, source }: FrameEntry): Request {
    const controller = new AbortController();
    const made = this.#client
      .request("picture", { frame: id }, { signal: controller.signal, limit: PICTURE_LIMIT })
      .then((proxy) => {
        const picture = sourceOf(proxy);
        this.#cache.keep(picture);
        return picture;
      });
    return { source, controller, made };
  }

  #abortLoading(): void {
    this.#loading?.controller.abort();
    this.#loading = undefined;
  }

  /** The request for a neighbour, where that is the frame that came into view; any other one gives way. */
  #takeAhead({ source }: FrameEntry): Request | undefined {
    const ahead = this.#ahead;
    this.#ahead = undefined;
    if (ahead?.source === source) return ahead;
    ahead?.controller.abort();
    return undefined;
  }

  #planPrefetch(): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.#prefetch(), PREFETCH_DELAY);
  }

  /** Fetches the next neighbour that is not known: one at a time, those in the way of the last step first. */
  #prefetch(): void {
    const { roll, loading } = this.#store.get();
    if (loading || !roll?.trusted) return;
    const neighbours = this.#beside([this.#direction, -this.#direction, 2 * this.#direction]);
    const next = neighbours.find(({ source }) => !this.#cache.has(source) && !this.#refused.has(source));
    if (this.#ahead && this.#ahead.source !== next?.source) {
      this.#ahead.controller.abort();
      this.#ahead = undefined;
    }
    if (!next || this.#ahead) return;
    const request = (this.#ahead = this.#request(next));
    request.made
      .then((ahead) => this.#store.set({ ahead }))
      .catch((error: unknown) => {
        // It is reported when somebody looks at that frame.
        if (!isCancelled(error)) this.#refused.add(next.source);
      })
      .finally(() => {
        if (this.#ahead !== request) return;
        this.#ahead = undefined;
        this.#planPrefetch();
      });
  }
}
