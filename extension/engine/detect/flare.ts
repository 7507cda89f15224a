/** Veiling light, seen where the holder lets no light through. */
import { transmittanceOf } from "../colour/density.ts";
import type { Area, Film, Rgb } from "../types.ts";
import type { DownsampledScan } from "./downsampled-scan.ts";

/** Transmittance that is less than any film's: what is darker is the holder, and what it shows is flare. */
const DARK = 0.012;
/** Part of the scan's border that the holder must cover for a reading. */
const MIN_DARK_SHARE = 0.02;
/** Side of the squares that are averaged, pixels. */
const SQUARE = 5;

/**
 * Flare as a fraction of the bare light, per channel: the darkest that the holder shows along the scan's border, in means
 * of 5 × 5 pixels. Near the opening metal shines faintly and the edge is blurred; far from it only flare is left, and a
 * little of the metal's own sheen, so that flare is never taken as less than it is.
 * Undefined without a blank, or where no holder is in view.
 */
export function flareOf(scan: DownsampledScan): Rgb | undefined {
  if (!scan.absolute) return undefined;
  const { width, height, t } = scan;
  const band = Math.max(SQUARE, Math.round(0.012 * width));
  const dark: [number[], number[], number[]] = [[], [], []];
  let seen = 0;
  for (let y = 0; y + SQUARE <= height; y += SQUARE)
    for (let x = 0; x + SQUARE <= width; x += SQUARE) {
      const border = x < band || x + SQUARE > width - band || y < band || y + SQUARE > height - band;
      if (!border) continue;
      seen++;
      const mean = [0, 0, 0];
      for (let j = y; j < y + SQUARE; j++)
        for (let i = x; i < x + SQUARE; i++)
          for (let c = 0; c < 3; c++) mean[c] += t[(j * width + i) * 3 + c] / SQUARE ** 2;
      if (Math.max(...mean) < DARK) for (let c = 0; c < 3; c++) dark[c].push(mean[c]);
    }
  if (dark[0].length < Math.max(8, MIN_DARK_SHARE * seen)) return undefined;
  const level = dark.map((values) => Math.max(0, Float32Array.from(values).sort()[Math.floor(values.length / 50)]));
  return [level[0], level[1], level[2]];
}

/**
 * Density above base that the densest tones of a film reach in a camera's bands. Data sheets of colour negatives end 1.6
 * (red) to 2.2 (blue) above their base, of which a camera sees nine tenths; silver reaches 3 (common practice, no source).
 */
const MAX_DENSITY: Readonly<Record<Film, number>> = { "colour-negative": 2, "black-and-white-negative": 3, slide: 3.5 };
/** Part of the picture that dust may be darker than film. */
const DUSTY = 0.001;

/**
 * Flare as far as the film lets it be: a holder's sheen passes for flare, and what is taken off too much leaves next to
 * nothing of the densest tones, whose colour then goes astray. So what is left of them is at least what the film's
 * greatest density lets through.
 * @param raw the scan with its flare
 * @param area the picture on it
 */
export function flareWithin(flare: Rgb, raw: DownsampledScan, area: Area, base: Rgb, film: Film): Rgb {
  const { width, height, t } = raw;
  const [x0, x1] = [Math.ceil((area.left + 0.02) * width), Math.floor((area.left + area.width - 0.02) * width)];
  const [y0, y1] = [Math.ceil((area.top + 0.02) * height), Math.floor((area.top + area.height - 0.02) * height)];
  const [columns, rows] = [Math.floor((x1 - x0) / 3), Math.floor((y1 - y0) / 3)];
  if (columns < 1 || rows < 1) return flare;
  const row = 3 * width;
  const clamped = flare.map((f, c) => {
    const squares = new Float32Array(columns * rows);
    for (let q = 0, k = 0; q < rows; q++)
      for (let p = 0, i = ((y0 + 3 * q) * width + x0) * 3 + c; p < columns; p++, k++, i += 9) {
        const [j, l] = [i + row, i + 2 * row];
        squares[k] = (t[i] + t[i + 3] + t[i + 6] + t[j] + t[j + 3] + t[j + 6] + t[l] + t[l + 3] + t[l + 6]) / 9;
      }
    const densest = squares.sort()[Math.floor(DUSTY * squares.length)];
    return Math.max(0, Math.min(f, densest - transmittanceOf(base[c] + MAX_DENSITY[film])));
  });
  return [clamped[0], clamped[1], clamped[2]];
}

/** The same overview with flare taken off: T = (s − f·b) / (b − f·b). */
export function withoutFlare(scan: DownsampledScan, flare: Rgb): DownsampledScan {
  const [r, g, b] = flare;
  const t = new Float32Array(scan.t.length);
  for (let i = 0; i < t.length; i += 3) {
    t[i] = (scan.t[i] - r) / (1 - r);
    t[i + 1] = (scan.t[i + 1] - g) / (1 - g);
    t[i + 2] = (scan.t[i + 2] - b) / (1 - b);
  }
  return { ...scan, t };
}
