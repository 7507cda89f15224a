/** Exposures of one picture with known shift, rotation, light and noise: what the tests of merging are judged by. */
import type { LinearScan } from "../../../../extension/engine/types.ts";
import { random } from "../../../witness/random.ts";

export const [WIDTH, HEIGHT] = [480, 320];

export interface ExposureRequest {
  /** Light; the sensor's limit is reached at signal 1. */
  readonly exposure: number;
  /** Where the picture's pixel (x, y) lies on this scan: shift in pixels, rotation in degrees about the middle. */
  readonly shift?: readonly [x: number, y: number];
  readonly degrees?: number;
  /** Of the noise. */
  readonly seed: number;
  /** Signals of the picture; the usual one where absent. */
  readonly picture?: (x: number, y: number) => number;
  /** A dark speck: middle on the scan, radius. */
  readonly dust?: readonly [x: number, y: number, radius: number];
}

/** Variance of a sample of signal s is READ + PHOTON · s, in every channel. */
export const [READ, PHOTON] = [1e-7, 4e-5];

const BLACK = 512;
const SCALE = 1 / 62_000;

/** Signals at exposure 1: soft blots over three decades, hard edges, and grain; made from `seed` alone. */
export function pictureOf(seed: number): (x: number, y: number) => number {
  const r = random(seed, "picture");
  const blots = Array.from({ length: 30 }, () => ({
    x: r.between(0, WIDTH),
    y: r.between(0, HEIGHT),
    size: r.between(3, 30),
    tone: r.between(-0.5, 0.5),
  }));
  const waves = Array.from({ length: 8 }, () => ({
    u: r.between(-1.2, 1.2),
    v: r.between(-1.2, 1.2),
    phase: r.between(0, 6.28),
  }));
  return (x, y) => {
    // From thin film on the left to dense on the right.
    let density = 0.15 + 2.1 * (x / WIDTH);
    for (const b of blots) {
      const d = ((x - b.x) ** 2 + (y - b.y) ** 2) / (2 * b.size ** 2);
      if (d < 12) density += b.tone * Math.exp(-d);
    }
    for (const { u, v, phase } of waves) density += 0.012 * Math.sin(u * x + v * y + phase);
    // A post with two edges, soft by a pixel as through a lens.
    density += 0.4 / (1 + Math.exp(-(x - 200.3) / 0.5)) - 0.4 / (1 + Math.exp(-(x - 214.7) / 0.5));
    return 10 ** -Math.max(0.1, density);
  };
}

/** Signals of a picture's own pixels, row by row. */
const truths = new WeakMap<object, Float64Array>();
function truthOf(picture: (x: number, y: number) => number): Float64Array {
  const known = truths.get(picture);
  if (known) return known;
  const made = Float64Array.from({ length: WIDTH * HEIGHT }, (_, i) => picture(i % WIDTH, Math.floor(i / WIDTH)));
  truths.set(picture, made);
  return made;
}

export function exposed({
  exposure,
  shift = [0, 0],
  degrees = 0,
  seed,
  picture = pictureOf(1),
  dust,
}: ExposureRequest): LinearScan {
  const noise = random(seed, "noise");
  const still = shift[0] === 0 && shift[1] === 0 && degrees === 0 ? truthOf(picture) : undefined;
  const data = new Uint16Array(WIDTH * HEIGHT * 3);
  const angle = (degrees * Math.PI) / 180;
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const [mx, my] = [(WIDTH - 1) / 2, (HEIGHT - 1) / 2];
  for (let v = 0; v < HEIGHT; v++)
    for (let u = 0; u < WIDTH; u++) {
      const [p, q] = [u - shift[0] - mx, v - shift[1] - my];
      let signal = exposure * (still?.[v * WIDTH + u] ?? picture(mx + c * p + s * q, my - s * p + c * q));
      if (dust && Math.hypot(u - dust[0], v - dust[1]) < dust[2]) signal *= 0.1;
      for (let k = 0; k < 3; k++) {
        const noisy = signal + Math.sqrt(READ + PHOTON * signal) * noise.normal();
        data[(v * WIDTH + u) * 3 + k] = Math.max(0, Math.round(BLACK + Math.min(1, noisy) / SCALE));
      }
    }
  return { width: WIDTH, height: HEIGHT, channels: 3, data, black: BLACK, scale: SCALE };
}

export const signalAt = ({ data, black, scale }: LinearScan, x: number, y: number, c = 1): number =>
  (data[(y * WIDTH + x) * 3 + c]! - black) * scale;

/** Root mean square and mean of relative deviations from the truth, over the pixels that `where` picks. */
export function deviations(
  scan: LinearScan,
  picture: (x: number, y: number) => number,
  where: (x: number, y: number, signal: number) => boolean,
): { readonly rms: number; readonly mean: number } {
  const truth = truthOf(picture);
  let [sum, squares, n] = [0, 0, 0];
  for (let y = 8; y < HEIGHT - 8; y++)
    for (let x = 8; x < WIDTH - 8; x++) {
      const signal = truth[y * WIDTH + x]!;
      if (!where(x, y, signal)) continue;
      for (let c = 0; c < 3; c++, n++) {
        const d = signalAt(scan, x, y, c) / signal - 1;
        sum += d;
        squares += d * d;
      }
    }
  return { rms: Math.sqrt(squares / n), mean: sum / n };
}
