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

/**
 * Reads the table between its nodes: linearly in the tetrahedron that the colour lies in, so that greys, which lie along an edge
 * of all six, are read between greys alone. After K. Kanamori et al., Proc. SPIE 1909 (1993) (from memory).
 * @param colour encoded ROMM RGB, 0 … 1, three values from `at`
 * @param out gets four values, 0 … 65535, not rounded
 */
export function readProof(
  table: ProofTable,
  colour: ArrayLike<number>,
  at: number,
  out: Float64Array | Float32Array,
): void {
  const r = colour[at]! * STEPS;
  const g = colour[at + 1]! * STEPS;
  const b = colour[at + 2]! * STEPS;
  // Beyond either end the outermost cell's end counts.
  const i = r < 0 ? 0 : r >= STEPS ? STEPS - 1 : r | 0;
  const j = g < 0 ? 0 : g >= STEPS ? STEPS - 1 : g | 0;
  const k = b < 0 ? 0 : b >= STEPS ? STEPS - 1 : b | 0;
  const x = part(r - i);
  const y = part(g - j);
  const z = part(b - k);
  const near = i * RED + j * GREEN + k * BLUE;
  const most = Math.max(x, y, z);
  const least = Math.min(x, y, z);
  const middle = x + y + z - most - least;
  // From the near corner along the axis of the greatest part, then of the middle one, then of the least.
  const first = near + (x === most ? RED : y === most ? GREEN : BLUE);
  const second = near + OPPOSITE - (z === least ? BLUE : y === least ? GREEN : RED);
  const far = near + OPPOSITE;
  for (let c = 0; c < PROOF_VALUES; c++)
    out[c] =
      (1 - most) * table[near + c]! +
      (most - middle) * table[first + c]! +
      (middle - least) * table[second + c]! +
      least * table[far + c]!;
}

const part = (v: number): number => (v < 0 ? 0 : v > 1 ? 1 : v);
