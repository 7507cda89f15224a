/**
 * The pictures of the tiles in view: proxies are fetched a few at a time, handed to the painter and forgotten when many
 * have come; each tile is painted again when its frame's look, crop or size changes.
 */
import type { FrameLook } from "../../../extension/engine/types.ts";
import type { EarlierFrame, FrameEntry, Proxy } from "../../../extension/messages.ts";
import { isCancelled, reasonOf } from "../../reason.ts";
import type { SheetSession } from "../sheet-session.ts";
import type { TilePainter } from "./tile-painter.ts";
import type { TileRequest } from "./tile-service.ts";

/** A tile as far as its picture is concerned. */
export interface PictureTile {
  readonly frame: FrameEntry;
  readonly look: FrameLook;
  readonly framing: Pick<EarlierFrame, "area" | "turn" | "mirror">;
  /** Room in device pixels. */
  readonly width: number;
  readonly height: number;
  /** What shows it. */
  readonly target: TileTarget;
}

export interface TileTarget {
  show(picture: ImageBitmap): void;
  fail(reason: string): void;
}

/** Requests to the host at a time. */
const AT_ONCE = 4;
/**
 * Proxies, and first pictures, that are asked for in one display frame. Each answer takes the page's thread when it comes
 * (tests/bench/sheet.ts): the pictures of rows that fly past are left out, and those of rows that stay come a little later.
 */
const MAX_STARTS = 2;
/** Longest side, in device pixels, up to which a thumbnail is fine enough. */
const THUMBNAIL_SIDE = 260;
/** Bytes of proxies that the painter keeps: thumbnails of 800 frames, or tiles of 100. */
const MAX_BYTES = 160e6;
/** Decoding a large scan on a slow disk takes its time. */
const LIMIT = 300_000;

type Kind = "thumbnail" | "tile";

interface Painted {
  /** What it was last asked for. */
  tile: PictureTile;
  request: TileRequest;
  running: boolean;
}

export interface TilePictures {
  /** Draws these tiles, and no others, until it is called again. */
  want(tiles: readonly PictureTile[]): void;
  /** Forgets what a tile shows: its element is used for another frame. */
  drop(target: TileTarget): void;
}

export const makeTilePictures = (session: SheetSession, painter: TilePainter): TilePictures =>
  new ProxyPictures(session, painter);

class ProxyPictures implements TilePictures {
  readonly #session: SheetSession;
  readonly #painter: TilePainter;
  /** Keys of what the painter has, the least lately used first, with their bytes. */
  readonly #known = new Map<string, number>();
  readonly #failed = new Map<string, string>();
  readonly #fetching = new Map<string, AbortController>();
  readonly #painted = new WeakMap<TileTarget, Painted>();
  #wanted: readonly PictureTile[] = [];
  #bytes = 0;
  #due = false;
  /** Starts of a display frame, and which one that is. */
  #starts = { fetch: 0, paint: 0, at: -1 };

  constructor(session: SheetSession, painter: TilePainter) {
    this.#session = session;
    this.#painter = painter;
  }

  want(tiles: readonly PictureTile[]): void {
    this.#wanted = tiles;
    const needed = new Set(tiles.flatMap((tile) => [keyOf("thumbnail", tile.frame), keyOf("tile", tile.frame)]));
    for (const [key, controller] of this.#fetching) if (!needed.has(key)) controller.abort();
    for (const tile of tiles) {
      const key = this.#keyFor(tile);
      const size = key === undefined ? undefined : this.#known.get(key);
      if (key === undefined || size === undefined) continue;
      this.#known.delete(key);
      this.#known.set(key, size);
    }
    this.#work();
  }

  drop(target: TileTarget): void {
    this.#painted.delete(target);
  }

  /** The best that is there for a tile. */
  #keyFor(tile: PictureTile): string | undefined {
    const kinds: readonly Kind[] = kindOf(tile) === "tile" ? ["tile", "thumbnail"] : ["thumbnail", "tile"];
    return kinds.map((kind) => keyOf(kind, tile.frame)).find((key) => this.#known.has(key));
  }

  /** Goes on with the display's next frame, once for all that has come until then. */
  #workSoon(): void {
    if (this.#due) return;
    this.#due = true;
    requestAnimationFrame(() => {
      this.#due = false;
      this.#work();
    });
  }

  /** Takes one of the display frame's starts; where none is left, work goes on with the next one. */
  #takeStart(of: "fetch" | "paint"): boolean {
    const at = Number(document.timeline.currentTime);
    if (this.#starts.at !== at) this.#starts = { fetch: 0, paint: 0, at };
    if (this.#starts[of] === MAX_STARTS) {
      this.#workSoon();
      return false;
    }
    this.#starts[of]++;
    return true;
  }

  #work(): void {
    for (const tile of this.#wanted) {
      const key = this.#keyFor(tile);
      if (key !== undefined) this.#paint(tile, key);
      const reason = this.#failed.get(keyOf(kindOf(tile), tile.frame));
      if (reason !== undefined && key === undefined) tile.target.fail(reason);
    }
    if (!this.#session.store.get().roll?.trusted) return;
    for (const tile of this.#wanted) {
      if (this.#fetching.size >= AT_ONCE) return;
      // A thumbnail comes first: it is there in a moment where the scan was seen before.
      const kind = this.#keyFor(tile) === undefined ? "thumbnail" : kindOf(tile);
      const key = keyOf(kind, tile.frame);
      if (tile.frame.scans.length === 0 || this.#isSettled(key)) continue;
      if (!this.#takeStart("fetch")) return;
      this.#fetch(kind, key, tile.frame.id);
    }
  }

  #isSettled(key: string): boolean {
    return this.#known.has(key) || this.#fetching.has(key) || this.#failed.has(key);
  }

  #fetch(kind: Kind, key: string, frame: string): void {
    const controller = new AbortController();
    this.#fetching.set(key, controller);
    this.#session.client
      .request(kind, { frame }, { limit: LIMIT, signal: controller.signal })
      .then(
        (proxy) => this.#add(`${kind} ${proxy.source}`, proxy),
        (error: unknown) => {
          if (!isCancelled(error)) this.#failed.set(key, reasonOf(error));
        },
      )
      .finally(() => {
        this.#fetching.delete(key);
        this.#workSoon();
      });
  }

  #add(key: string, proxy: Proxy): void {
    const size = proxy.codes.byteLength;
    if (this.#known.has(key)) return;
    this.#painter.add(key, proxy);
    this.#known.set(key, size);
    this.#bytes += size;
    const inUse = new Set(this.#wanted.map((tile) => this.#keyFor(tile)));
    for (const [old, of] of this.#known) {
      if (this.#bytes <= MAX_BYTES) break;
      if (old === key || inUse.has(old)) continue;
      this.#painter.forget(old);
      this.#known.delete(old);
      this.#bytes -= of;
    }
  }

  #paint(tile: PictureTile, key: string): void {
    const before = this.#painted.get(tile.target);
    if (before?.tile === tile && before.request.key === key) return;
    const { look, framing, width, height } = tile;
    const { area, turn, mirror } = framing;
    const request: TileRequest = { key, look, area, turn, mirror, width, height };
    if (before) before.tile = tile;
    if (before && isSame(before.request, request)) return;
    // The latest request is painted when the one under way is done.
    if (before?.running) return void (before.request = request);
    // What is shown already follows a value that moves at once.
    if (!before && !this.#takeStart("paint")) return;
    const state: Painted = { tile, request, running: true };
    this.#painted.set(tile.target, state);
    void this.#run(tile, state);
  }

  async #run(tile: PictureTile, state: Painted): Promise<void> {
    try {
      for (let request: TileRequest | undefined = state.request; request;) {
        const asked: TileRequest = request;
        // A look that cannot be compiled is named among the problems.
        const picture = await this.#painter.paint(asked).catch(() => null);
        if (this.#painted.get(tile.target) !== state) {
          picture?.close();
          return;
        }
        if (picture) tile.target.show(picture);
        request = state.request === asked ? undefined : state.request;
      }
    } finally {
      state.running = false;
    }
  }
}

/** Sources are long: their keys are put together once a frame. */
const keys = new WeakMap<FrameEntry, Readonly<Record<Kind, string>>>();

function keyOf(kind: Kind, frame: FrameEntry): string {
  let of = keys.get(frame);
  if (!of) keys.set(frame, (of = { thumbnail: `thumbnail ${frame.source}`, tile: `tile ${frame.source}` }));
  return of[kind];
}

const kindOf = ({ width, height }: PictureTile): Kind =>
  Math.max(width, height) > THUMBNAIL_SIDE ? "tile" : "thumbnail";

const isSame = (a: TileRequest, b: TileRequest): boolean =>
  a.key === b.key &&
  a.look === b.look &&
  a.width === b.width &&
  a.height === b.height &&
  a.turn === b.turn &&
  a.mirror === b.mirror &&
  Object.entries(a.area).every(([key, value]) => b.area[key as keyof typeof b.area] === value);
