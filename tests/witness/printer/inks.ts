/**
 * A model printer: what a paper shows of its inks. Neugebauer's mixture of the solid overprints with Yule and Nielsen's
 * factor n = 2 (Yule & Nielsen 1951; Viggiano 1985).
 *
 * Solids: characterisation data FOGRA39L (www.fogra.org, December 2006; offset on coated paper, ISO 12647-2:2004/Amd 1; D50,
 * 2°, 45/0, white backing by ISO 13655), as Debian's package icc-profiles-free carries them under the zlib licence.
 */
export type Triple = readonly [number, number, number];

/** XYZ of each overprint, Y of the perfect diffuser 100. Bit 0 cyan, bit 1 magenta, bit 2 yellow, bit 3 black. */
const SOLIDS: readonly Triple[] = [
  [84.48, 87.62, 74.57],
  [15.02, 22.93, 52.85],
  [33.03, 16.79, 15.01],
  [5.67, 4.1, 15.67],
  [69.17, 74.16, 7.04],
  [8.16, 18.42, 6.74],
  [30.2, 16.02, 2.3],
  [3.66, 3.8, 3.13],
  [2.02, 2.1, 1.73],
  [0.91, 1.18, 1.79],
  [1.61, 1.18, 0.89],
  [0.99, 0.87, 1.08],
  [1.84, 2.04, 0.82],
  [0.89, 1.31, 0.85],
  [1.56, 1.31, 0.65],
  [0.93, 0.97, 0.69],
];
const YULE_NIELSEN = 2;

/** XYZ of the bare paper, as a fraction of the perfect diffuser. */
export const PAPER: Triple = [0.8448, 0.8762, 0.7457];
/** The profile connection space's white, ICC.1:2010 §6.3.1. */
export const D50: Triple = [0.9642, 1, 0.8249];

/** XYZ of a mixture of inks, each 0 … 1, as a fraction of the perfect diffuser. */
export function printedXyz(inks: readonly number[]): Triple {
  const roots = [0, 0, 0];
  for (let solid = 0; solid < 1 << inks.length; solid++) {
    const area = inks.reduce((share, ink, i) => share * ((solid >> i) & 1 ? ink : 1 - ink), 1);
    for (let c = 0; c < 3; c++) roots[c]! += area * (SOLIDS[solid]![c]! / 100) ** (1 / YULE_NIELSEN);
  }
  return roots.map((root) => root ** YULE_NIELSEN) as unknown as Triple;
}

/** CIELAB under D50 relative to the paper (media-relative) or to the perfect diffuser. */
export function printedLab(inks: readonly number[], relativeTo: "paper" | "diffuser" = "paper"): Triple {
  const xyz = printedXyz(inks);
  return labOf(relativeTo === "paper" ? (xyz.map((v, i) => (v * D50[i]!) / PAPER[i]!) as unknown as Triple) : xyz);
}

/** CIE 15:2004, 8.2.1. */
export function labOf([x, y, z]: Triple): Triple {
  const f = (t: number): number => (t > 216 / 24389 ? Math.cbrt(t) : (t * 24389) / 27 / 116 + 16 / 116);
  const [fx, fy, fz] = [f(x / D50[0]), f(y / D50[1]), f(z / D50[2])];
  return [116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)];
}

/** Black ink for a lightness: none in the lights, four fifths in the deepest shadow. */
export const blackFor = (lightness: number): number => 0.8 * Math.max(0, Math.min(1, 1 - lightness / 60)) ** 2;

/**
 * Cyan, magenta and yellow that come nearest to a media-relative colour, by damped steps of Newton's method inside 0 … 1.
 * @param black a fourth ink, 0 … 1
 */
export function inksFor(lab: Triple, black?: number): readonly number[] {
  const all = (cmy: readonly number[]): number[] => (black === undefined ? [...cmy] : [...cmy, black]);
  const error = (cmy: readonly number[]): Triple => {
    const found = printedLab(all(cmy));
    return [found[0] - lab[0], found[1] - lab[1], found[2] - lab[2]];
  };
  const norm = (e: Triple): number => e[0] ** 2 + e[1] ** 2 + e[2] ** 2;
  let cmy: number[] = [0.5, 0.5, 0.5];
  let now = error(cmy);
  let damping = 1;
  for (let round = 0; round < 18 && norm(now) > 1e-5; round++) {
    const step = 1e-4;
    const columns = [0, 1, 2].map((i) => {
      const moved = error(cmy.map((v, k) => (k === i ? v + (v > 0.5 ? -step : step) : v)));
      return moved.map((v, c) => (v - now[c]!) / (cmy[i]! > 0.5 ? -step : step));
    });
    const delta = solve3(
      normalMatrix(columns, damping),
      columns.map((column) => -dot(column, now)),
    );
    const next = cmy.map((v, i) => Math.max(0, Math.min(1, v + delta[i]!)));
    const then = error(next);
    if (norm(then) < norm(now)) {
      [cmy, now, damping] = [next, then, damping / 3];
    } else damping *= 4;
    if (damping > 1e9) break;
  }
  return all(cmy);
}

const dot = (a: readonly number[], b: readonly number[]): number => a.reduce((sum, v, i) => sum + v * b[i]!, 0);

const normalMatrix = (columns: readonly (readonly number[])[], damping: number): number[][] =>
  columns.map((a, i) => columns.map((b, k) => dot(a, b) + (i === k ? damping : 0)));

/** Cramer's rule. */
function solve3(m: readonly (readonly number[])[], v: readonly number[]): number[] {
  const det = (a: readonly (readonly number[])[]): number =>
    a[0]![0]! * (a[1]![1]! * a[2]![2]! - a[1]![2]! * a[2]![1]!) -
    a[0]![1]! * (a[1]![0]! * a[2]![2]! - a[1]![2]! * a[2]![0]!) +
    a[0]![2]! * (a[1]![0]! * a[2]![1]! - a[1]![1]! * a[2]![0]!);
  const whole = det(m);
  return [0, 1, 2].map((i) => det(m.map((row, r) => row.map((value, k) => (k === i ? v[r]! : value)))) / whole);
}
