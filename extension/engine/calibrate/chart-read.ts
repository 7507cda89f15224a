/** Reads a chart's patches off a scan and decides which end of the chart is up. */
import type { Lab } from "../colour/lab.ts";
import { deltaE76 } from "../colour/difference.ts";
import { evaluator } from "../film/reference-pixel.ts";
import type { DownsampledScan } from "../detect/downsampled-scan.ts";
import type { FrameLook, Rgb } from "../types.ts";
import type { ChartGrid } from "./chart-find.ts";
import type { ChartPatch } from "./chart-fit.ts";

/** A patch's true colour. */
export interface ReferencePatch {
  readonly name: string;
  /** L*a*b* under D50. */
  readonly lab: Lab;
}

export interface ChartReading {
  readonly patches: readonly ChartPatch[];
  /** How the chart lies in the scan. */
  readonly turned: 0 | 90 | 180 | 270;
  readonly mirrored: boolean;
  /** Patches with clipped samples, by name: they cannot be used. */
  readonly clipped: readonly string[];
  /** Patches that were not seen as even squares but placed by the others, by name. */
  readonly unseen: readonly string[];
}

/** Part of a patch's side that is read. */
const CORE = 0.55;

/**
 * @param reference patches row by row, six to a row
 * @param look of the film so far: good enough to tell which patch is which
 */
export function readChart(
  o: DownsampledScan,
  grid: ChartGrid,
  reference: readonly ReferencePatch[],
  look: FrameLook,
): ChartReading {
  const samples = grid.centres.map(([x, y]) => sample(o, x, y, Math.max(2, (grid.size * CORE) / 2)));
  // Contrast as the scene has it: the reference is the scene.
  const read = evaluator({ ...look, tone: { contrast: 1, toe: 0, shoulder: 0, black: 0, points: [] } }, "srgb");
  const labs = samples.map(({ transmittance }) => read(transmittance).lab);
  let best: { order: number[]; turned: ChartReading["turned"]; mirrored: boolean } | undefined;
  let minDistance = Infinity;
  for (const mirrored of [false, true])
    for (const turned of [0, 90, 180, 270] as const) {
      const order = orderOf(grid, turned, mirrored, reference.length / 6);
      if (!order) continue;
      const error = mismatch(
        order.map((i) => labs[i]),
        reference.map((p) => p.lab),
      );
      if (error < minDistance) {
        minDistance = error;
        best = { order, turned, mirrored };
      }
    }
  const { order, turned, mirrored } = best!;
  return {
    patches: reference.map(({ name, lab }, k) => ({ name, lab, transmittance: samples[order[k]].transmittance })),
    turned,
    mirrored,
    unseen: reference.flatMap(({ name }, k) => (grid.unseen.includes(order[k]) ? [name] : [])),
    clipped: reference.flatMap(({ name }, k) => (samples[order[k]].clipped ? [name] : [])),
  };
}

/** Mean distance once a common shift of L*, a* and b* is taken off: an exposure or a cast must not decide. */
function mismatch(got: readonly Lab[], want: readonly Lab[]): number {
  const shift = [0, 1, 2].map((k) => got.reduce((s, v, i) => s + v[k] - want[i][k], 0) / got.length);
  return got.reduce((s, v, i) => s + deltaE76([v[0] - shift[0], v[1] - shift[1], v[2] - shift[2]], want[i]), 0);
}

/** Index in the grid of each patch of a chart that lies turned clockwise by so much, mirrored before. */
function orderOf(grid: ChartGrid, turned: number, mirrored: boolean, rows: number): number[] | undefined {
  const sideways = turned === 90 || turned === 270;
  const [columns, lines] = [6, rows];
  if (grid.columns !== (sideways ? lines : columns)) return undefined;
  return Array.from({ length: columns * lines }, (_, k) => {
    const [u, v] = [mirrored ? columns - 1 - (k % columns) : k % columns, Math.floor(k / columns)];
    if (turned === 0) return v * grid.columns + u;
    if (turned === 180) return (lines - 1 - v) * grid.columns + (columns - 1 - u);
    if (turned === 90) return u * grid.columns + (lines - 1 - v);
    return (columns - 1 - u) * grid.columns + v;
  });
}

function sample(o: DownsampledScan, x: number, y: number, half: number): { transmittance: Rgb; clipped: boolean } {
  const values: [number[], number[], number[]] = [[], [], []];
  let clipped = 0;
  for (let j = Math.max(0, Math.round(y - half)); j < Math.min(o.height, y + half); j++)
    for (let i = Math.max(0, Math.round(x - half)); i < Math.min(o.width, x + half); i++) {
      const k = j * o.width + i;
      clipped += o.clipped[k];
      for (let c = 0; c < 3; c++) values[c].push(o.t[k * 3 + c]);
    }
  const t = values.map((v) => trimmedMean(v));
  return { transmittance: [t[0], t[1], t[2]], clipped: clipped > 0.05 * values[0].length };
}

/** Mean of the middle eight tenths: dust falls out, grain averages. */
function trimmedMean(values: number[]): number {
  const sorted = Float64Array.from(values).sort();
  const cut = Math.floor(sorted.length / 10);
  const kept = sorted.subarray(cut, sorted.length - cut);
  return kept.reduce((a, b) => a + b, 0) / kept.length;
}
