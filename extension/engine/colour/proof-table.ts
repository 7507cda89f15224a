/**
 * A soft proof as a table: what a colour looks like on a printer's paper, over ROMM RGB. It is made from the printer's
 * profile (scans/icc/proof.ts) and read for every pixel that is shown, here and by the panel's shader.
 */

/** Nodes a side. */
export const PROOF_SIDE = 33;
/** Values a node: red, green and blue of the screen, 0 … 65535, and the difference of the colour from its print. */
export const PROOF_VALUES = 4;
/** ΔE00 that the fourth value states as 65535. */
export const MAX_PROOF_DIFFERENCE = 100;

/** PROOF_SIDE³ nodes, red fastest, then green, then blue, of PROOF_VALUES each. */
export type ProofTable = Uint16Array;

const STEPS = PROOF_SIDE - 1;
const [RED, GREEN, BLUE] = [PROOF_VALUES, PROOF_VALUES * PROOF_SIDE, PROOF_VALUES * PROOF_SIDE ** 2];
const OPPOSITE = RED + GREEN + BLUE;

/** Colours to be read: encoded ROMM RGB, 0 … 65535; what lies beyond either end counts as the end. */
export interface ProofSamples {
  readonly samples: Uint16Array | Float64Array;
  /** Colours. */
  readonly n: number;
  /** Values of a colour: three, or one that stands for all. */
  readonly channels: 1 | 3;
}

/**
 * Reads the table between its nodes: linearly in the tetrahedron that a colour lies in, so that greys, which lie along an edge
 * of all six, are read between greys alone. After K. Kanamori et al., Proc. SPIE 1909 (1993) (from memory).
 * @param out gets PROOF_VALUES values a colour, 0 … 65535, not rounded
 */
export function readProof(table: ProofTable, { samples, n, channels }: ProofSamples, out: Float32Array): void {
  const scale = STEPS / 65535;
  const last = STEPS - 1;
  const second = channels === 3 ? 1 : 0;
  const third = 2 * second;
  for (let p = 0, s = 0, k = 0; p < n; p++, s += channels, k += PROOF_VALUES) {
    const r = clampedTo(samples[s]! * scale);
    const g = clampedTo(samples[s + second]! * scale);
    const b = clampedTo(samples[s + third]! * scale);
    const i = r < last ? r | 0 : last;
    const j = g < last ? g | 0 : last;
    const l = b < last ? b | 0 : last;
    const x = r - i;
    const y = g - j;
    const z = b - l;
    const most = x > y ? (x > z ? x : z) : y > z ? y : z;
    const least = x < y ? (x < z ? x : z) : y < z ? y : z;
    const middle = x + y + z - most - least;
    // From the near corner along the axis of the greatest part, then of the middle one, then of the least.
    const near = i * RED + j * GREEN + l * BLUE;
    const one = near + (x === most ? RED : y === most ? GREEN : BLUE);
    const two = near + OPPOSITE - (z === least ? BLUE : y === least ? GREEN : RED);
    const far = near + OPPOSITE;
    const u = 1 - most;
    const v = most - middle;
    const w = middle - least;
    out[k] = u * table[near]! + v * table[one]! + w * table[two]! + least * table[far]!;
    out[k + 1] = u * table[near + 1]! + v * table[one + 1]! + w * table[two + 1]! + least * table[far + 1]!;
    out[k + 2] = u * table[near + 2]! + v * table[one + 2]! + w * table[two + 2]! + least * table[far + 2]!;
    out[k + 3] = u * table[near + 3]! + v * table[one + 3]! + w * table[two + 3]! + least * table[far + 3]!;
  }
}

const clampedTo = (v: number): number => (v < 0 ? 0 : v > STEPS ? STEPS : v);
