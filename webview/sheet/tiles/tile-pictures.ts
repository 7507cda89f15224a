/**
 * The pictures of the tiles in view: proxies are fetched a few at a time, handed to the painter and forgotten when many
 * have come; each tile is painted again when its frame's look, crop or size changes.
 */
import { cancelledError } from "../../../extension/failure.ts";
import type { FrameLook } from "../../../extension/engine/types.ts";
import type { EarlierFrame, FrameEntry, Proxy } from "../../../extension/messages.ts";
import { reasonOf } from "../../reason.ts";
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
/** Longest side, in device pixels, up to which a thumbnail is fine enough. */
const THUMBNAIL_SIDE = 260;
/** Bytes of proxies that the painter keeps: thumbnails of 800 frames, or tiles of 100. */
const MAX_BYTES = 160e6;
/** Decoding a large scan on a slow disk takes its time. */
const LIMIT = 300_000;

type Kind = "thumbnail" | "tile";

interface Painted {
  request: TileRequest;
  running: boolean;
}

export interface TilePictures {
  /** Draws these tiles, and no others, until it is called again. */
  want(tiles: readonly PictureTile[]): void;
  /** Forgets what a tile shows: its element is used for another frame. */
  drop(target: TileTarget): void;
}

export function makeTilePictures(session: SheetSession, painter: TilePainter): TilePictures {
  /** Keys of what the painter has, the least lately used first, with their bytes. */
  const known = new Map<string, number>();
  const failed = new Map<string, string>();
  const fetching = new Map<string, AbortController>();
  const painted = new WeakMap<TileTarget, Painted>();
  let wanted: readonly PictureTile[] = [];
  let bytes = 0;

  /** Sources are long: their keys are put together once a frame. */
  const keys = new WeakMap<FrameEntry, Readonly<Record<Kind, string>>>();
  const keyOf = (kind: Kind, frame: FrameEntry): string => {
    let of = keys.get(frame);
    if (!of) keys.set(frame, (of = { thumbnail: `thumbnail ${frame.source}`, tile: `tile ${frame.source}` }));
    return of[kind];
  };
  const kindOf = ({ width, height }: PictureTile): Kind =>
    Math.max(width, height) > THUMBNAIL_SIDE ? "tile" : "thumbnail";

  /** The best that is there for a tile. */
  function keyFor(tile: PictureTile): string | undefined {
    const kinds: readonly Kind[] = kindOf(tile) === "tile" ? ["tile", "thumbnail"] : ["thumbnail", "tile"];
    return kinds.map((kind) => keyOf(kind, tile.frame)).find((key) => known.has(key));
  }

  function work(): void {
    for (const tile of wanted) {
      const key = keyFor(tile);
      if (key !== undefined) paint(tile, key);
      const reason = failed.get(keyOf(kindOf(tile), tile.frame));
      if (reason !== undefined && key === undefined) tile.target.fail(reason);
    }
    if (!session.store.get().roll?.trusted) return;
    for (const tile of wanted) {
      if (fetching.size >= AT_ONCE) return;
      // A thumbnail comes first: it is there in a moment where the scan was seen before.
      const kind = keyFor(tile) === undefined ? "thumbnail" : kindOf(tile);
      const key = keyOf(kind, tile.frame);
      if (tile.frame.scans.length > 0 && !known.has(key) && !fetching.has(key) && !failed.has(key))
        fetchProxy(kind, key, tile.frame.id);
    }
  }

  function fetchProxy(kind: Kind, key: string, frame: string): void {
    const controller = new AbortController();
    fetching.set(key, controller);
    session.client
      .request(kind, { frame }, { limit: LIMIT, signal: controller.signal })
      .then(
        (proxy) => keepProxy(`${kind} ${proxy.source}`, proxy),
        (error: unknown) => {
          if (!isCancelled(error)) failed.set(key, reasonOf(error));
        },
      )
      .finally(() => {
        fetching.delete(key);
        work();
      });
  }

  function keepProxy(key: string, proxy: Proxy): void {
    const size = proxy.codes.byteLength;
    if (known.has(key)) return;
    painter.add(key, proxy);
    known.set(key, size);
    bytes += size;
    const inUse = new Set(wanted.map(keyFor));
    for (const [old, of] of known) {
      if (bytes <= MAX_BYTES) break;
      if (old === key || inUse.has(old)) continue;
      painter.forget(old);
      known.delete(old);
      bytes -= of;
    }
  }

  function paint(tile: PictureTile, key: string): void {
    const { look, framing, width, height } = tile;
    const request: TileRequest = {
      key,
      look,
      area: framing.area,
      turn: framing.turn,
      mirror: framing.mirror,
      width,
      height,
    };
    const before = painted.get(tile.target);
    if (before && isSame(before.request, request)) return;
    // The latest request is painted when the one under way is done.
    if (before?.running) return void (before.request = request);
    const state: Painted = { request, running: true };
    painted.set(tile.target, state);
    void run(tile, state);
  }

  async function run(tile: PictureTile, state: Painted): Promise<void> {
    try {
      for (let request: TileRequest | undefined = state.request; request;) {
        const asked: TileRequest = request;
        // A look that cannot be compiled is named among the problems.
        const picture = await painter.paint(asked).catch(() => null);
        if (painted.get(tile.target) !== state) {
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

  return {
    want(tiles) {
      wanted = tiles;
      const needed = new Set(tiles.flatMap((tile) => [keyOf("thumbnail", tile.frame), keyOf("tile", tile.frame)]));
      for (const [key, controller] of fetching) if (!needed.has(key)) controller.abort();
      for (const tile of tiles) {
        const key = keyFor(tile);
        const size = key === undefined ? undefined : known.get(key);
        if (key === undefined || size === undefined) continue;
        known.delete(key);
        known.set(key, size);
      }
      work();
    },
    drop: (target) => void painted.delete(target),
  };
}

const isCancelled = (error: unknown): boolean => (error as { code?: unknown }).code === cancelledError().code;

const isSame = (a: TileRequest, b: TileRequest): boolean =>
  a.key === b.key &&
  a.look === b.look &&
  a.width === b.width &&
  a.height === b.height &&
  a.turn === b.turn &&
  a.mirror === b.mirror &&
  Object.entries(a.area).every(([key, value]) => b.area[key as keyof typeof b.area] === value);
