/** Soft proofs on the CPU: a plan for ROMM RGB, then the proof's table (engine/colour/proof-table.ts). */
import { MAX_PROOF_DIFFERENCE, type ProofTable, readProof } from "../../extension/engine/colour/proof-table.ts";
import { NODE_VALUES, readGrid } from "../../extension/engine/local/grid.ts";
import { codeTable } from "../../extension/engine/plan/log-code.ts";
import { runLocal } from "../../extension/engine/plan/run-local.ts";
import { runPlan } from "../../extension/engine/plan/run.ts";
import type { Plan } from "../../extension/engine/plan/compile.ts";
import { CLIPPING, endsOf, type Kind } from "./clipping.ts";
import type { LocalRows } from "./local-pass.ts";

/** What an output looks like on its paper, on this screen. */
export interface Proof {
  /** Equal keys mean equal tables. */
  readonly key: string;
  readonly table: ProofTable;
}

/** The space that plans of a proof are compiled for. */
export const PROOF_SPACE = "romm";

/**
 * ΔE00 from which on a colour counts as one that the paper has not. Common practice, no source: profiles' own tables give colours
 * that the paper has with differences of about 1, and from 3 on a difference is plain without comparing side by side.
 */
export const GAMUT_BAR = 3;
/** The same as the table's fourth value. */
export const GAMUT_LIMIT = (GAMUT_BAR / MAX_PROOF_DIFFERENCE) * 65535;

/** Fills rows of RGBA pixels with a plan's print as it looks on paper. @returns the kind of clipping of each pixel */
export function runProofRows(plan: Plan, { table }: Proof, rows: LocalRows): Uint8Array {
  const { width, height, codes, codesAt, pixels, placeOf } = rows;
  const { local, channels } = plan;
  const light = codeTable();
  const kinds = new Uint8Array(width * height);
  const t = new Float32Array(width * 3);
  const printed = new Uint16Array(width * channels);
  const adjustments = new Float32Array(local ? width * NODE_VALUES : 0);
  const finish = finisher(plan, table);
  for (let y = 0; y < height; y++) {
    for (let k = 0, i = 3 * codesAt(y); k < t.length; k++, i++) t[k] = light[codes[i]!]!;
    runPlan(plan, t, printed, width);
    if (local && readGrid(local, placeOf(y), width, adjustments))
      runLocal(plan, 65535, { n: width, t, from: 0, adjustments, out: printed, to: 0, stride: channels });
    for (let x = 0, k = y * width; x < width; x++, k++) kinds[k] = finish(printed, x * channels, pixels, 4 * k);
  }
  return kinds;
}

/** Turns one printed colour into a pixel; returns what is lost of it. */
function finisher(
  plan: Plan,
  table: ProofTable,
): (printed: Uint16Array, at: number, pixels: Uint8ClampedArray, to: number) => Kind {
  const ends = endsOf(plan);
  const [black, white] = [(ends.black + 0.5) / 255, (ends.white - 0.5) / 255];
  const one = plan.channels === 1;
  const colour = new Float64Array(3);
  const found = new Float64Array(4);
  return (printed, at, pixels, to) => {
    for (let c = 0; c < 3; c++) colour[c] = printed[one ? at : at + c]! / 65535;
    readProof(table, colour, 0, found);
    for (let c = 0; c < 3; c++) pixels[to + c] = found[c]! / 257;
    pixels[to + 3] = 255;
    const top = Math.max(colour[0]!, colour[1]!, colour[2]!);
    if (top >= white) return CLIPPING.white;
    if (top <= black) return CLIPPING.black;
    return found[3]! >= GAMUT_LIMIT ? CLIPPING.gamut : CLIPPING.none;
  };
}
