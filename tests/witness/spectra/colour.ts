/** The witness's own colorimetry: reflectances to linear Rec.709 and CIELAB under D65. */
import { integral, product, type Spectrum } from "./spectrum.ts";
import { D65, OBSERVER } from "./tables.ts";

export type Triple = [number, number, number];
/** Rows are outputs. */
export type Matrix = [Triple, Triple, Triple];

export function apply(m: Matrix, v: Readonly<Triple>): Triple {
  return [
    m[0][0] * v[0] + m[0][1] * v[1] + m[0][2] * v[2],
    m[1][0] * v[0] + m[1][1] * v[1] + m[1][2] * v[2],
    m[2][0] * v[0] + m[2][1] * v[1] + m[2][2] * v[2],
  ];
}

/** Linear Rec.709/sRGB primaries to XYZ with D65 white (IEC 61966-2-1, four digits). */
export const REC709_TO_XYZ: Matrix = [
  [0.4124, 0.3576, 0.1805],
  [0.2126, 0.7152, 0.0722],
  [0.0193, 0.1192, 0.9505],
];
const XYZ_TO_REC709 = invert(REC709_TO_XYZ);

/** Linear Rec.709 of a reflectance under D65; a perfect white is [1, 1, 1]. */
export function rgbOfReflectance(reflectance: Spectrum): Triple {
  const rgb = rgbSum(reflectance);
  // 10 nm steps from 400 to 700 nm leave the white 0.1 % off; greys must be exact.
  return [rgb[0] / WHITE[0], rgb[1] / WHITE[1], rgb[2] / WHITE[2]];
}

const LUMINANCE = integral(D65, OBSERVER[1]);
/** What the observer sees of each wavelength of daylight. */
const SEEN = OBSERVER.map((o) => product(o, D65));
const WHITE = rgbSum(new Float64Array(31).fill(1));

function rgbSum(reflectance: Spectrum): Triple {
  const xyz = SEEN.map((seen) => integral(seen, reflectance) / LUMINANCE) as Triple;
  return apply(XYZ_TO_REC709, xyz);
}

/** CIELAB (D65) of linear Rec.709. */
export function labOfRgb(rgb: Readonly<Triple>): Triple {
  const white = apply(REC709_TO_XYZ, [1, 1, 1]);
  const f = apply(REC709_TO_XYZ, rgb).map((v, i) => {
    const t = v / white[i];
    return t > 216 / 24389 ? Math.cbrt(t) : ((24389 / 27) * t + 16) / 116;
  });
  return [116 * f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])];
}

export function invert(m: Matrix): Matrix {
  const [[a, b, c], [d, e, f], [g, h, i]] = m;
  const A = e * i - f * h;
  const B = f * g - d * i;
  const C = d * h - e * g;
  const det = a * A + b * B + c * C;
  if (Math.abs(det) < 1e-300) throw new Error("The matrix has no inverse: its rows depend on one another.");
  return [
    [A / det, (c * h - b * i) / det, (b * f - c * e) / det],
    [B / det, (a * i - c * g) / det, (c * d - a * f) / det],
    [C / det, (b * g - a * h) / det, (a * e - b * d) / det],
  ];
}

/** Solves a·x = b by Gaussian elimination with pivoting; a is n×n, row by row. */
export function solve(a: number[][], b: number[]): number[] {
  const n = b.length;
  const m = a.map((r, i) => [...r, b[i]]);
  for (let k = 0; k < n; k++) {
    let p = k;
    for (let i = k + 1; i < n; i++) if (Math.abs(m[i][k]) > Math.abs(m[p][k])) p = i;
    [m[k], m[p]] = [m[p], m[k]];
    if (Math.abs(m[k][k]) < 1e-14) throw new Error("The equations have no single solution.");
    for (let i = k + 1; i < n; i++) {
      const f = m[i][k] / m[k][k];
      for (let j = k; j <= n; j++) m[i][j] -= f * m[k][j];
    }
  }
  const x = Array.from({ length: n }, () => 0);
  for (let i = n - 1; i >= 0; i--) {
    let s = m[i][n];
    for (let j = i + 1; j < n; j++) s -= m[i][j] * x[j];
    x[i] = s / m[i][i];
  }
  return x;
}
