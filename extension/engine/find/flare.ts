/** Veiling light, seen where the holder lets no light through. */
import type { Rgb } from "../types.ts";
import type { Overview } from "./overview.ts";

/** Transmittance that is less than any film's: what is darker is the holder, and what it shows is flare. */
const DARK = 0.012;
/** Part of the scan's border that the holder must cover for a reading. */
const FEWEST = 0.02;

/**
 * Flare as a fraction of the bare light, per channel: the darkest twentieth of what the holder covers along the
 * scan's border. Near the opening metal shines faintly and the edge is blurred; far from it only flare is left.
 * Undefined without a blank, or where no holder is in view.
 */
export function flareOf(overview: Overview): Rgb | undefined {
  if (!overview.absolute) return undefined;
  const { width, height, t } = overview;
  const band = Math.max(2, Math.round(0.012 * width));
  const dark: [number[], number[], number[]] = [[], [], []];
  let seen = 0;
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      if (x >= band && x < width - band && y >= band && y < height - band) {
        x = width - band - 1;
        continue;
      }
      seen++;
      const i = (y * width + x) * 3;
      if (t[i] > DARK || t[i + 1] > DARK || t[i + 2] > DARK) continue;
      for (let c = 0; c < 3; c++) dark[c].push(t[i + c]);
    }
  if (dark[0].length < FEWEST * seen) return undefined;
  const level = dark.map((values) => {
    const sorted = Float32Array.from(values).sort();
    return Math.max(0, sorted[Math.floor(sorted.length / 20)]);
  });
  return [level[0], level[1], level[2]];
}

/** The same overview with flare taken off: T = (s − f·b) / (b − f·b). */
export function withoutFlare(overview: Overview, flare: Rgb): Overview {
  const t = overview.t.map((v, i) => (v - flare[i % 3]) / (1 - flare[i % 3]));
  return { ...overview, t };
}
