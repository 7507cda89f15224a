/** Makes finished rows of the positive out of a scan's rows, for one or more plans at once. */
import type { Plan } from "./compile.ts";
import { type LocalGrid, NODE_VALUES, readGrid } from "../local/grid.ts";
import { runLocal } from "./run-local.ts";
import { runPlan } from "./run.ts";
import { openFrameRunner } from "./simd/frame-runner.ts";
import { type LightSetup, readTransmittance, sampleGains } from "../flat-field/transmittance.ts";
import type { LinearScan } from "../types.ts";

/** Makes finished rows out of a scan, for one or more plans at once. */
export interface RowMaker {
  /**
   * One row for each plan: columns `from` … `to − 1` of scan row `y`, 16-bit samples, the plan's channels interleaved
   * from the start. The arrays are the maker's own and hold until the next call.
   */
  row(y: number, from: number, to: number): readonly Uint16Array[];
}

/**
 * Transmittance and plans in one go. Colour scans with colour plans run as one loop of vectors; everything else takes
 * the plain way. Both are within one code of 65535 of each other.
 *
 * @param plans of one look, for one or more output spaces.
 */
export function rowMaker(scan: LinearScan, light: LightSetup, plans: readonly Plan[]): RowMaker {
  const rows = scan.channels === 3 && !plans[0].mono ? colourRows(scan, light, plans) : plainRows(scan, light, plans);
  const { local } = plans[0];
  return local ? localRows(rows, local, scan, light, plans) : rows;
}

/** Rows whose pixels inside of local areas are made again, with what the areas add. */
function localRows(
  rows: RowMaker,
  local: LocalGrid,
  scan: LinearScan,
  light: LightSetup,
  plans: readonly Plan[],
): RowMaker {
  const { width, height } = scan;
  const reader = readTransmittance(scan, light);
  const t = new Float32Array(width * 3);
  const adjustments = new Float32Array(width * NODE_VALUES);
  return {
    row(y, from, to) {
      const made = rows.row(y, from, to);
      const n = to - from;
      const line = { x: (from + 0.5) / width, y: (y + 0.5) / height, dx: 1 / width, dy: 0 };
      if (!readGrid(local, line, n, adjustments)) return made;
      reader.row(y, t, from, to);
      plans.forEach((plan, k) =>
        runLocal(plan, 65535, { n, t, from: 0, adjustments, out: made[k], to: 0, stride: plan.channels }),
      );
      return made;
    },
  };
}

function colourRows(scan: LinearScan, light: LightSetup, plans: readonly Plan[]): RowMaker {
  const { width, data, black } = scan;
  const runner = openFrameRunner(plans, width);
  const { offset, gains } = sampleGains(scan, light);
  let held = "";
  return {
    row(y, from, to) {
      const { start, slope, band, at } = gains(y);
      const wanted = `${band} ${from} ${to}`;
      if (wanted !== held) {
        runner.start.set(start.subarray(from * 3, to * 3));
        runner.slope.set(slope.subarray(from * 3, to * 3));
        held = wanted;
      }
      runner.samples.set(data.subarray((y * width + from) * 3, (y * width + to) * 3));
      runner.run(to - from, black, at, offset);
      return runner.targets;
    },
  };
}

function plainRows(scan: LinearScan, light: LightSetup, plans: readonly Plan[]): RowMaker {
  const reader = readTransmittance(scan, light);
  const transmittance = new Float32Array(scan.width * 3);
  const rows = plans.map((plan) => new Uint16Array(scan.width * plan.channels));
  return {
    row(y, from, to) {
      reader.row(y, transmittance, from, to);
      plans.forEach((plan, k) => runPlan(plan, transmittance, rows[k], to - from));
      return rows;
    },
  };
}
