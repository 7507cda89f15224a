/** Soft proofs on the CPU: a plan for ROMM RGB, then the proof's table (engine/colour/proof-table.ts). */
import {
  MAX_PROOF_DIFFERENCE,
  PROOF_VALUES,
  type ProofTable,
  readProof,
} from "../../extension/engine/colour/proof-table.ts";
import { NODE_VALUES, readGrid } from "../../extension/engine/local/grid.ts";
import { codeTable } from "../../extension/engine/plan/log-code.ts";
import { runLocal } from "../../extension/engine/plan/run-local.ts";
import { runPlan } from "../../extension/engine/plan/run.ts";
import type { Plan } from "../../extension/engine/plan/compile.ts";
import { CLIPPING, endsOf } from "./clipping.ts";
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

/** From the table's values to those of a canvas. */
const TO_BYTE = 1 / 257;

/** Fills rows of RGBA pixels with a plan's print as it looks on paper. @returns the kind of clipping of each pixel */
export function runProofRows(plan: Plan, { table }: Proof, rows: LocalRows): Uint8Array {
  const { width, height, codes, codesAt, pixels, placeOf } = rows;
  const { local, channels } = plan;
  const light = codeTable();
  const kinds = new Uint8Array(width * height);
  const t = new Float32Array(width * 3);
  const printed = new Uint16Array(width * channels);
  const adjustments = new Float32Array(local ? width * NODE_VALUES : 0);
  const shown = new Float32Array(width * PROOF_VALUES);
  const ends = endsOf(plan);
  const limits = { black: (ends.black + 0.5) * 257, white: (ends.white - 0.5) * 257 };
  // The clamping array would round a second time.
  const bytes = new Uint8Array(pixels.buffer, pixels.byteOffset, pixels.length);
  for (let y = 0; y < height; y++) {
    for (let k = 0, i = 3 * codesAt(y); k < t.length; k++, i++) t[k] = light[codes[i]!]!;
    runPlan(plan, t, printed, width);
    if (local && readGrid(local, placeOf(y), width, adjustments))
      runLocal(plan, 65535, { n: width, t, from: 0, adjustments, out: printed, to: 0, stride: channels });
    readProof(table, { samples: printed, n: width, channels }, shown);
    for (let k = 0, i = y * width * 4; k < shown.length; k += PROOF_VALUES, i += 4) {
      bytes[i] = (shown[k]! * TO_BYTE + 0.5) | 0;
      bytes[i + 1] = (shown[k + 1]! * TO_BYTE + 0.5) | 0;
      bytes[i + 2] = (shown[k + 2]! * TO_BYTE + 0.5) | 0;
      bytes[i + 3] = 255;
    }
    markKinds(kinds.subarray(y * width, (y + 1) * width), printed, channels, shown, limits);
  }
  return kinds;
}

/** What is lost of each pixel of a row: in the print, or of its colours on paper. */
function markKinds(
  kinds: Uint8Array,
  printed: Uint16Array,
  channels: 1 | 3,
  shown: Float32Array,
  { black, white }: { readonly black: number; readonly white: number },
): void {
  for (let x = 0, k = 0; x < kinds.length; x++, k += channels) {
    let top = printed[k]!;
    if (channels === 3) {
      if (printed[k + 1]! > top) top = printed[k + 1]!;
      if (printed[k + 2]! > top) top = printed[k + 2]!;
    }
    if (top >= white) kinds[x] = CLIPPING.white;
    else if (top <= black) kinds[x] = CLIPPING.black;
    else if (shown[x * PROOF_VALUES + 3]! >= GAMUT_LIMIT) kinds[x] = CLIPPING.gamut;
  }
}
