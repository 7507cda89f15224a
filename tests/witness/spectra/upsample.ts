/**
 * Scene colours to spectra. A colour of linear Rec.709 becomes a smooth reflectance S(c0 t² + c1 t + c2), S a sigmoid:
 * the family of Jakob and Hanika, "A low-dimensional function space for efficient spectral upsampling" (2019).
 * Greys are exactly flat, nothing is negative, and scaling a colour scales its spectrum.
 */
import { rgbOfReflectance, solve, type Triple } from "./colour.ts";
import { BANDS, spectrum, WAVELENGTHS, type Spectrum } from "./spectrum.ts";

/** The solver works at half brightness, where saturated colours still have smooth spectra. */
const LEVEL = 0.5;
/** Purer colours than this fraction of the largest channel are taken as this pure. */
const PUREST = 0.006;

function sigmoid(c: readonly number[]): Spectrum {
  return spectrum((nm) => {
    const t = (nm - 550) / 150;
    const x = (c[0] * t + c[1]) * t + c[2];
    return 0.5 + (0.5 * x) / Math.sqrt(1 + x * x);
  });
}

function fit(target: Readonly<Triple>, start: readonly number[]): number[] {
  const errorOf = (c: readonly number[]): Triple => {
    const rgb = rgbOfReflectance(sigmoid(c));
    return [rgb[0] - target[0], rgb[1] - target[1], rgb[2] - target[2]];
  };
  const size = (e: Triple): number => Math.hypot(...e);
  let c = [...start];
  let e = errorOf(c);
  let damping = 1e-6;
  for (let round = 0; round < 60 && size(e) > 1e-7; round++) {
    const jac = [0, 1, 2].map((k) => {
      const moved = [...c];
      moved[k] += 1e-4;
      return errorOf(moved).map((v, i) => (v - e[i]) / 1e-4);
    });
    const normal = [0, 1, 2].map((i) =>
      [0, 1, 2].map((j) => jac[i][0] * jac[j][0] + jac[i][1] * jac[j][1] + jac[i][2] * jac[j][2]),
    );
    const right = [0, 1, 2].map((i) => -(jac[i][0] * e[0] + jac[i][1] * e[1] + jac[i][2] * e[2]));
    for (let tries = 0; tries < 12; tries++) {
      const step = solve(
        normal.map((r, i) => r.map((v, j) => (i === j ? v * (1 + damping) + 1e-13 : v))),
        right,
      );
      const next = c.map((v, i) => v + step[i]);
      const nextError = errorOf(next);
      if (size(nextError) < size(e)) {
        c = next;
        e = nextError;
        damping = Math.max(damping / 8, 1e-9);
        break;
      }
      damping *= 8;
    }
  }
  return c;
}

/** Nodes along each side of a face; spaced by squares so that pure colours are sampled more finely. */
export const NODES = 33;

/**
 * Spectra of all colours whose largest channel is `face` (value 1): node (i, j) has the other two channels, in
 * ascending channel order, at (i/(NODES−1))² and (j/(NODES−1))². BANDS values per node.
 */
let faces: Float64Array[] | undefined;

export function faceSpectra(): readonly Float64Array[] {
  return (faces ??= [0, 1, 2].map(solveFace));
}

function solveFace(face: number): Float64Array {
  const out = new Float64Array(NODES * NODES * BANDS);
  const others = [0, 1, 2].filter((k) => k !== face);
  let rowStart = [0, 0, 0];
  // From white outwards: each solution is the start of its neighbour.
  for (let i = NODES - 1; i >= 0; i--) {
    let c = rowStart;
    for (let j = NODES - 1; j >= 0; j--) {
      const target: Triple = [LEVEL, LEVEL, LEVEL];
      target[others[0]] = LEVEL * Math.max(PUREST, (i / (NODES - 1)) ** 2);
      target[others[1]] = LEVEL * Math.max(PUREST, (j / (NODES - 1)) ** 2);
      c = fit(target, c);
      if (j === NODES - 1) rowStart = c;
      const s = sigmoid(c);
      for (let b = 0; b < BANDS; b++) out[(i * NODES + j) * BANDS + b] = s[b] / LEVEL;
    }
  }
  return out;
}

/** The spectrum of one colour, for tests and targets; the same interpolation as the exposure tables use. */
export function spectrumOfRgb(rgb: Readonly<Triple>): Spectrum {
  const out = new Float64Array(WAVELENGTHS.length);
  const mix = nodeMix(rgb);
  if (!mix) return out;
  const table = faceSpectra()[mix.face];
  for (const [node, weight] of mix.nodes) for (let b = 0; b < BANDS; b++) out[b] += weight * table[node * BANDS + b];
  return out;
}

/** Nodes of a face and their weights (the colour's brightness folded in); undefined for black. */
export function nodeMix(
  rgb: Readonly<Triple>,
): { face: number; nodes: readonly (readonly [number, number])[] } | undefined {
  const face = rgb[0] >= rgb[1] && rgb[0] >= rgb[2] ? 0 : rgb[1] >= rgb[2] ? 1 : 2;
  const top = rgb[face];
  if (!(top > 0)) return undefined;
  const u = Math.sqrt(Math.max(0, rgb[face === 0 ? 1 : 0] / top)) * (NODES - 1);
  const v = Math.sqrt(Math.max(0, rgb[face === 2 ? 1 : 2] / top)) * (NODES - 1);
  const i = Math.min(NODES - 2, Math.floor(u));
  const j = Math.min(NODES - 2, Math.floor(v));
  const [a, b] = [squareFraction(u, i), squareFraction(v, j)];
  const n = i * NODES + j;
  return {
    face,
    nodes: [
      [n, top * (1 - a) * (1 - b)],
      [n + 1, top * (1 - a) * b],
      [n + NODES, top * a * (1 - b)],
      [n + NODES + 1, top * a * b],
    ],
  };
}

/** Where u lies between nodes i and i+1, measured in squares, so that interpolation is linear in colour. */
export function squareFraction(u: number, i: number): number {
  return (u * u - i * i) / (2 * i + 1);
}
