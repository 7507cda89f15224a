/** Memory and kernels for correcting one channel of a scan. */
import { Allocator, enterArena } from "../../wasm/memory-pool.ts";
import { lanczosKernel, PHASES } from "../../image/lanczos.ts";
import { alongModule, downModule, NODE, PHASE_BYTES } from "./lens-kernels.ts";

const { taps, first, weights } = lanczosKernel(1);
/** Taps of a sample, and the first one's place from the sample's own. */
export const [TAPS, FIRST] = [taps, first];
/** Floats of a phase's weights. */
const ROW = PHASE_BYTES / 4;

/** Weights by phases of two pixels: past the first, the same weights one tap on. */
const PHASE_WEIGHTS = Float32Array.from({ length: (2 * PHASES + 1) * ROW }, (_, i) => {
  const [phase, tap] = [Math.floor(i / ROW), i % ROW];
  const [row, on] = phase <= PHASES ? [phase, 0] : [phase - PHASES, 1];
  const own = tap - on;
  return own >= 0 && own < TAPS ? weights[row * TAPS + own] : 0;
});

export interface LensRoom {
  /** A row's samples, from `pad` before the first column on. */
  readonly source: Float32Array;
  readonly pad: number;
  /** Shift and step of each node of a row. */
  readonly nodes: Float32Array;
  /** The samples of a finished row. */
  readonly target: Uint16Array;
  /** Rows that are held at a time. */
  readonly ring: number;
  /** Draws `source` along the row into a place of the ring. */
  along(place: number): void;
  /** Draws `target` out of the ring. @param placeOf place in the ring of the row that lies so far below the target's own */
  down(placeOf: (below: number) => number): void;
  release(): void;
}

/** @param reach the largest shift, in whole samples */
export function openLensRoom(nodeCount: number, reach: number): LensRoom {
  const count = nodeCount * NODE;
  const pad = reach + TAPS;
  const ring = 2 * reach + TAPS + 4;
  const below = 2 * reach + TAPS + 4;
  const places = new Allocator();
  const [weightsAt, countsAt, nodesAt, sourceAt, targetAt, tableAt, rowsAt] = [
    4 * PHASE_WEIGHTS.length,
    4 * NODE,
    8 * nodeCount,
    4 * (count + 2 * pad + ROW),
    2 * (count + NODE),
    4 * below,
    4 * ring * count,
  ].map((bytes) => places.take(bytes));
  const arena = enterArena(places.end);
  const { buffer } = arena.memory;
  new Float32Array(buffer, weightsAt, PHASE_WEIGHTS.length).set(PHASE_WEIGHTS);
  new Float32Array(buffer, countsAt, NODE).set(Array.from({ length: NODE }, (_, k) => k));
  // Weights of 0 meet whatever lies there: it has to be numbers.
  new Float32Array(buffer, rowsAt, ring * count).fill(0);
  const source = new Float32Array(buffer, sourceAt, count + 2 * pad + ROW);
  const table = new Int32Array(buffer, tableAt, below);
  const [along, down] = [arena.kernel("lens-along", alongModule), arena.kernel("lens-down", downModule)];
  return {
    source,
    pad,
    ring,
    nodes: new Float32Array(buffer, nodesAt, 2 * nodeCount),
    target: new Uint16Array(buffer, targetAt, count),
    along(place) {
      const row = rowsAt + 4 * place * count;
      along(nodesAt, sourceAt + 4 * (pad + FIRST), weightsAt, countsAt, row, row + 4 * count);
    },
    down(placeOf) {
      const lowest = FIRST - reach - 1;
      for (let k = 0; k < below; k++) table[k] = rowsAt + 4 * placeOf(lowest + k) * count;
      down(nodesAt, tableAt + 4 * (reach + 1), 0, weightsAt, countsAt, targetAt, targetAt + 2 * count);
    },
    release: () => arena.release(),
  };
}
