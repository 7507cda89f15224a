/** Fetches the picture of the frame in view, one request at a time. */
import { JobError } from "../../extension/failure.ts";
import type { FrameEntry, PreviewRequests } from "../../extension/messages.ts";
import type { RpcClient } from "../../extension/rpc.ts";
import { reasonOf } from "../reason.ts";
import { sourceOf } from "../render/source.ts";
import type { Store } from "../state/store.ts";
import type { Model } from "./model.ts";

/** Milliseconds; decoding a large scan on a slow disk takes its time. */
const PICTURE_LIMIT = 180_000;

export class PictureLoader {
  readonly #store: Store<Model>;
  readonly #client: RpcClient<PreviewRequests>;
  readonly #frame: () => FrameEntry | undefined;
  #loading?: AbortController;
  /** The source that failed: it is not asked for again until the recipe names another, or `retry` is called. */
  #failed?: string;

  /** `frame` returns the frame in view. */
  constructor(store: Store<Model>, client: RpcClient<PreviewRequests>, frame: () => FrameEntry | undefined) {
    this.#store = store;
    this.#client = client;
    this.#frame = frame;
  }

  /** Fetches the picture, unless it is shown already or has failed. */
  load(): void {
    const entry = this.#frame();
    const { source, current, roll } = this.#store.get();
    if (!entry || !roll?.trusted || entry.source === this.#failed || (entry.source === source?.key && current)) return;
    this.#loading?.abort();
    const controller = (this.#loading = new AbortController());
    this.#failed = undefined;
    this.#store.set({ loading: true, failure: undefined, detail: undefined, current: false });
    const limits = { signal: controller.signal, limit: PICTURE_LIMIT };
    this.#client.request("picture", { frame: entry.id }, limits).then(
      (proxy) => {
        if (this.#loading !== controller) return;
        const made = sourceOf(proxy);
        this.#store.set({ source: made, current: true, loading: false, failure: undefined });
        // The recipe moved on while the scan was decoded.
        if (this.#frame()?.source !== made.key) this.load();
      },
      (error: unknown) => {
        if (this.#loading !== controller || (error instanceof JobError && error.code === "cancelled")) return;
        this.#failed = entry.source;
        const failure = reasonOf(error);
        this.#store.set({ loading: false, failure, announcement: failure });
      },
    );
  }

  /** Gives up the picture that is being fetched, because another frame comes into view. */
  cancel(): void {
    this.#failed = undefined;
    this.#loading?.abort();
  }

  /** Asks once more for a picture that failed. */
  retry(): void {
    this.#failed = undefined;
    this.load();
  }
}
