/** Light through film, holder and lens onto each pixel's own filter: 1 is saturation. */
import type { Triple } from "../spectra/colour.ts";
import type { Falloff, Setup, Leak } from "./setup.ts";

interface Field {
  readonly width: number;
  readonly height: number;
  /** Bare light in the middle of the field, fractions of saturation. */
  readonly bare: Readonly<Triple>;
  /** Channel of each site of the 2×2 cell. */
  readonly channels: readonly number[];
  /** Where in its period the light's flicker is when the scan begins; any number. */
  readonly phase: number;
}

/** Bare light at a place (fractions of the scan) relative to the middle of the field. */
export function falloffAt(f: Falloff, channel: number, u: number, v: number): number {
  const r2 = 2 * ((u - f.middle[0]) ** 2 + (v - f.middle[1]) ** 2);
  const even = 1 - f.corners * r2 * (0.85 + 0.15 * r2);
  const slope = 1 + f.slope[0] * (u - 0.5) + f.slope[1] * (v - 0.5) + f.tint[channel] * (u - 0.5);
  return even * slope * twoColours(f, channel, u);
}

function twoColours(f: Falloff, channel: number, u: number): number {
  return f.twoColours === 0 ? 1 : 1 + (1 - channel) * f.twoColours * Math.tanh((u - 0.55) / 0.05);
}

/**
 * falloffAt() in the middles of the pixels: what depends on the column alone is computed once, what depends on channel
 * and row once a row.
 */
function falloffOver(f: Falloff, width: number): (channel: number, v: number) => (x: number) => number {
  const columns = Float64Array.from({ length: width }, (_, x) => (x + 0.5) / width);
  const away = columns.map((u) => (u - f.middle[0]) * (u - f.middle[0]));
  const slope = columns.map((u) => 1 + f.slope[0] * (u - 0.5));
  const tints = f.tint.map((t) => columns.map((u) => t * (u - 0.5)));
  const borders = [0, 1, 2].map((c) => columns.map((u) => twoColours(f, c, u)));
  return (channel, v) => {
    const [tint, two] = [tints[channel], borders[channel]];
    const down = (v - f.middle[1]) * (v - f.middle[1]);
    const sloped = f.slope[1] * (v - 0.5);
    return (x) => {
      const r2 = 2 * (away[x] + down);
      const even = 1 - f.corners * r2 * (0.85 + 0.15 * r2);
      return even * (slope[x] + sloped + tint[x]) * two[x];
    };
  };
}

/** Signal per pixel, and the flare that it holds in fractions of the bare light. `film` is interleaved transmittance. */
export function illuminate(
  setup: Setup,
  field: Field,
  film: Float32Array | undefined,
  shade: Float32Array | undefined,
): { light: Float32Array; flare: Triple } {
  const { width, height, bare, channels } = field;
  const light = new Float32Array(width * height);
  const flare = flareOf(setup, field, film);
  const { banding } = setup.falloff;
  const holder = holderOf(setup, width, height);
  const falloff = falloffOver(setup.falloff, width);
  const leaks = setup.leaks.length > 0;
  for (let y = 0; y < height; y++) {
    const flicker = 1 + banding.swing * Math.sin((2 * Math.PI * y) / banding.period + field.phase);
    // Every other pixel of a row is of one colour.
    for (const odd of [0, 1]) {
      const c = channels[((y & 1) << 1) | odd];
      const fall = falloff(c, (y + 0.5) / height);
      const [full, veil] = [bare[c], flare[c]];
      for (let x = odd, i = y * width + odd; x < width; x += 2, i += 2) {
        let t = film ? film[i * 3 + c] : 1;
        if (leaks) for (const s of setup.leaks) t += leakAt(s, setup, x + 0.5, y + 0.5, width, height);
        if (holder) t = holder(x + 0.5, y + 0.5, t);
        let e = full * (t * fall(x) + veil);
        if (shade) e *= shade[i];
        light[i] = e * flicker;
      }
    }
  }
  return { light, flare };
}

/** Glare spreads the mean light of the whole field; stray light comes from the panel alone. */
function flareOf(setup: Setup, { width, height }: Field, film: Float32Array | undefined): Triple {
  const holder = holderOf(setup, width, height);
  const mean = [0, 0, 0];
  let count = 0;
  for (let y = 4; y < height; y += 8)
    for (let x = 4; x < width; x += 8, count++)
      for (let c = 0; c < 3; c++) {
        const t = film ? film[(y * width + x) * 3 + c] : 1;
        const seen = holder ? holder(x + 0.5, y + 0.5, t) : t;
        mean[c] += seen * falloffAt(setup.falloff, c, (x + 0.5) / width, (y + 0.5) / height);
      }
  return [0, 1, 2].map((c) => (setup.veil[c] * mean[c]) / count + setup.stray[c]) as Triple;
}

/** Light that comes past the holder: dark metal with a faint sheen, its edge soft because it lies out of focus. */
function holderOf(
  setup: Setup,
  width: number,
  height: number,
): ((x: number, y: number, t: number) => number) | undefined {
  const o = setup.opening;
  if (!o) return undefined;
  const radius = 0.008 * width;
  const soft = 0.0012 * width + 0.5;
  const [cx, cy] = [(o.left + o.width / 2) * width, (o.top + o.height / 2) * height];
  const [hx, hy] = [(o.width / 2) * width - radius, (o.height / 2) * height - radius];
  return (x, y, t) => {
    const dx = Math.abs(x - cx) - hx;
    const dy = Math.abs(y - cy) - hy;
    // Far inside nothing needs to be computed.
    if (dx < -radius && dy < -radius && Math.max(dx, dy) < radius - 3 * soft) return t;
    const distance = Math.hypot(Math.max(0, dx), Math.max(0, dy)) + Math.min(0, Math.max(dx, dy)) - radius;
    const open = 1 / (1 + Math.exp((distance / soft) * 2.5));
    return t * open + (1 - open) * (0.0006 + 0.003 * Math.exp(-Math.max(0, distance) / (4 * soft)));
  };
}

function leakAt(s: Leak, setup: Setup, x: number, y: number, width: number, height: number): number {
  const o = setup.opening ?? { left: 0, top: 0, width: 1, height: 1 };
  const distances = {
    left: x - o.left * width,
    right: (o.left + o.width) * width - x,
    top: y - o.top * height,
    bottom: (o.top + o.height) * height - y,
  };
  return s.strength * Math.exp(-Math.max(0, distances[s.side]) / (s.reach * width));
}
