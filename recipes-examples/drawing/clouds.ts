/** Heaped clouds: lit lumps marched through a layer, kept in a map about the view so that each is reckoned once. */
import { clamp, fbm2, fbm3, noise3, smoothstep } from "./noise.ts";
import type { CloudLayer, Light } from "./sky.ts";
import type { Vec } from "./vector.ts";

export interface CumulusSpec {
  readonly sun: Vec;
  /** Colour of a sunlit edge and of a shaded base. */
  readonly lit: Light;
  readonly shade: Light;
  /** Height of the base and thickness of the layer, metres. */
  readonly base: number;
  readonly thick: number;
  /** Typical size of a heap, metres, and how much of the sky is covered, −1 … 1. */
  readonly size: number;
  readonly cover: number;
  readonly seed: number;
  /** Azimuths looked at, degrees from straight ahead, and the highest elevation. */
  readonly from: number;
  readonly to: number;
  readonly top: number;
  /** Haze colour that far clouds turn to, and distance in metres at which they are two thirds gone. */
  readonly haze: Light;
  readonly far: number;
  /** Columns of the map; rows follow. About a third of the picture's width will do. */
  readonly columns: number;
}

export function cumulus(c: CumulusSpec): CloudLayer {
  const { columns } = c;
  const low = 0.6;
  const rows = Math.ceil((columns * (c.top - low)) / (c.to - c.from));
  const map = new Float32Array(columns * rows * 4);
  for (let j = 0; j < rows; j++)
    for (let i = 0; i < columns; i++) {
      const a = ((c.from + ((i + 0.5) / columns) * (c.to - c.from)) * Math.PI) / 180;
      const e = ((low + ((j + 0.5) / rows) * (c.top - low)) * Math.PI) / 180;
      march(
        c,
        Math.sin(a) * Math.cos(e),
        Math.sin(e),
        -Math.cos(a) * Math.cos(e),
        hashDither(i, j),
        map,
        (j * columns + i) * 4,
      );
    }
  soften(map, columns, rows);
  return (dx, dy, dz, out, fine) => {
    let u = (((Math.atan2(dx, -dz) * 180) / Math.PI - c.from) / (c.to - c.from)) * columns - 0.5;
    let v = (((Math.asin(clamp(dy, -1, 1)) * 180) / Math.PI - low) / (c.top - low)) * rows - 0.5;
    if (fine) {
      // Frayed edges finer than the map: the place that is read wanders a little.
      const wu = fbm2(u * 0.11 + 5.2, v * 0.11, 4, 0.05, 0.6);
      const wv = fbm2(u * 0.11, v * 0.11 + 9.4, 4, 0.05, 0.6);
      u += wu * 2.6;
      v += wv * 2.6;
    }
    // Beyond the map the nearest column serves: light from the side only.
    const x = clamp(u, 0, columns - 1.001);
    const y = clamp(v, 0, rows - 1.001);
    const i = Math.floor(x);
    const j = Math.floor(y);
    const tx = x - i;
    const ty = y - j;
    const o = (j * columns + i) * 4;
    const p = o + columns * 4;
    const away = Math.exp(-Math.max(0, v - rows) / (rows * 0.3)) * smoothstep(-2, 1, v + 1);
    const at = (k: number): number =>
      (map[o + k] * (1 - tx) + map[o + 4 + k] * tx) * (1 - ty) + (map[p + k] * (1 - tx) + map[p + 4 + k] * tx) * ty;
    const cover = at(3) * away;
    for (let k = 0; k < 3; k++) out[k] = out[k] * (1 - cover) + at(k) * away;
  };
}

/** Evens out the march's jitter: a bell of 3 × 3 over the map. */
function soften(map: Float32Array, columns: number, rows: number): void {
  const from = map.slice();
  for (let j = 1; j < rows - 1; j++)
    for (let i = 1; i < columns - 1; i++)
      for (let k = 0; k < 4; k++) {
        const o = (j * columns + i) * 4 + k;
        const line = (p: number): number => from[p - 4] + 2 * from[p] + from[p + 4];
        map[o] = (line(o - columns * 4) + 2 * line(o) + line(o + columns * 4)) / 16;
      }
}

function hashDither(i: number, j: number): number {
  const v = 52.9829189 * ((0.06711056 * i + 0.00583715 * j) % 1);
  return v - Math.floor(v);
}

/** How thick the cloud is at a place; `h` is its height in the layer, 0 … 1. */
function density(c: CumulusSpec, x: number, z: number, h: number, fine: boolean): number {
  const heap = fbm2(x / c.size + c.seed, z / c.size, 3) + c.cover;
  if (heap < -0.25) return 0;
  // Flat below, heaped above: the higher, the more of the heap's middle is asked for.
  const shape = heap - 0.85 * h * h - 0.5 * smoothstep(0.12, 0, h);
  if (shape < -0.35) return 0;
  const k = 5.5 / c.size;
  const y = h * c.thick;
  let d = shape + 0.42 * (1 - 2 * Math.abs(noise3(x * k, y * k, z * k)));
  if (fine) d += 0.3 * fbm3(x * k * 2.3, y * k * 2.3, z * k * 2.3, 3);
  return d - 0.3;
}

function march(
  c: CumulusSpec,
  dx: number,
  dy: number,
  dz: number,
  jitter: number,
  map: Float32Array,
  at: number,
): void {
  const near = c.base / dy;
  const far = Math.min((c.base + c.thick) / dy, near + c.thick * 7);
  if (near > c.far * 4) return;
  let clear = 1;
  let r = 0;
  let g = 0;
  let b = 0;
  const toSun = Math.max(0, dx * c.sun[0] + dy * c.sun[1] + dz * c.sun[2]);
  const fine = Math.max(c.size / 26, near * 0.011);
  let t = near + jitter * fine;
  for (let i = 0; i < 60 && t < far && clear > 0.02; i++) {
    const x = dx * t;
    const z = dz * t;
    const h = (dy * t - c.base) / c.thick;
    const d = density(c, x, z, h, true);
    // Far from any cloud the march strides, near one it treads.
    const step = fine * (d < -0.45 ? 3.2 : d < -0.15 ? 1.8 : 1);
    t += step;
    if (d <= 0) continue;
    const hold = 1 - Math.exp(-Math.min(1, d * 3.2) * step * 0.012);
    // How much cloud lies towards the sun.
    let shade = 0;
    for (let k = 1; k <= 3; k++) {
      const s = c.thick * 0.1 * k * k;
      const e = density(c, x + c.sun[0] * s, z + c.sun[2] * s, h + (c.sun[1] * s) / c.thick, k === 1);
      if (e > 0) shade += Math.min(1, e * 2.2) * k;
    }
    const light = Math.exp(-shade * 0.6) * (0.72 + 0.28 * h) + 0.25 * toSun ** 8;
    const sky = 0.5 + 0.5 * h;
    const w = hold * clear;
    r += w * (c.lit[0] * light + c.shade[0] * sky);
    g += w * (c.lit[1] * light + c.shade[1] * sky);
    b += w * (c.lit[2] * light + c.shade[2] * sky);
    clear *= 1 - hold;
  }
  const cover = 1 - clear;
  const gone = 1 - Math.exp(-near / c.far);
  map[at] = r * (1 - gone) + c.haze[0] * cover * gone;
  map[at + 1] = g * (1 - gone) + c.haze[1] * cover * gone;
  map[at + 2] = b * (1 - gone) + c.haze[2] * cover * gone;
  map[at + 3] = cover * (1 - 0.6 * gone * gone);
}
