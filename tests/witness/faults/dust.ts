/** Dust on the film and sensor dust. Both take away light of every colour alike. */
import type { Plane } from "../blur.ts";
import type { FilmFormat } from "../film/format.ts";
import { random } from "../random.ts";

/** A speck, a hair or a scratch on the film; places in mm from the picture's middle, radius in mm. */
export interface Dust {
  readonly kind: "speck" | "hair" | "scratch";
  readonly x: number;
  readonly y: number;
  /** Mean radius of a speck; half the thickness of a hair. */
  readonly radius: number;
  /** Length of a hair in mm. */
  readonly length: number;
  /** Fraction of light taken away in its middle. */
  readonly opacity: number;
  /** Seed of an invented outline. */
  readonly shape: number;
  /** A drawn outline in place of an invented one: corners in mm from its place. */
  readonly outline?: readonly (readonly [x: number, y: number])[];
}

/** A speck of dust on the cover glass of the sensor, as a shadow; place and radius in fractions of the scan's width. */
export interface SensorDust {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
  readonly depth: number;
}

/** Dust scattered evenly over the picture; radii spread evenly on a log scale between `smallest` and `largest` mm. */
export function scatterDust(
  format: FilmFormat,
  amount: { specks: number; hairs?: number; smallest?: number; largest?: number },
  seed: number,
): Dust[] {
  const r = random(seed, "dust");
  const { smallest = 0.025, largest = 0.13 } = amount;
  return Array.from({ length: amount.specks + (amount.hairs ?? 0) }, (_, i) => {
    const hair = i >= amount.specks;
    return {
      kind: hair ? "hair" : "speck",
      x: r.between(-0.48, 0.48) * format.picture[0],
      y: r.between(-0.48, 0.48) * format.picture[1],
      radius: hair ? r.between(0.012, 0.022) : smallest * (largest / smallest) ** r.uniform(),
      length: hair ? r.between(0.6, 3) : 0,
      opacity: hair ? r.between(0.5, 0.85) : r.between(0.65, 0.97),
      shape: r.bits(),
    } as const;
  });
}

/** Dirt spread over the sensor: the same for every scan of one camera between two cleanings. */
export function scatterSensorDust(count: number, seed: number): SensorDust[] {
  const r = random(seed, "dirt");
  return Array.from({ length: count }, () => ({
    x: r.between(0.06, 0.94),
    y: r.between(0.06, 0.6),
    radius: r.between(0.0016, 0.005),
    depth: r.between(0.08, 0.35),
  }));
}

/** Lays dust on a transmittance raster of the film; `middle` is the picture's centre in pixels. */
export function placeDust(
  plane: Plane,
  dust: readonly Dust[],
  pixelsPerMm: number,
  middle: readonly [number, number],
): void {
  for (const d of dust) {
    const cx = middle[0] + d.x * pixelsPerMm;
    const cy = middle[1] + d.y * pixelsPerMm;
    const shade = (x: number, y: number, distance: number): void => {
      const cover = Math.min(1, Math.max(0, 0.5 - distance));
      if (cover === 0) return;
      const left = 1 - cover * d.opacity;
      const i = (y * plane.width + x) * 3;
      for (let c = 0; c < 3; c++) plane.data[i + c] *= left;
    };
    if (d.outline) {
      placeOutline(plane, d.outline, pixelsPerMm, cx, cy, shade);
      continue;
    }
    if (d.kind === "hair") {
      placeHair(plane, d, pixelsPerMm, cx, cy, shade);
      continue;
    }
    const distance = speckDistance(d, pixelsPerMm);
    const reach = 1.6 * d.radius * pixelsPerMm + 2;
    for (let y = Math.max(0, Math.floor(cy - reach)); y < Math.min(plane.height, cy + reach); y++)
      for (let x = Math.max(0, Math.floor(cx - reach)); x < Math.min(plane.width, cx + reach); x++)
        shade(x, y, distance(x + 0.5 - cx, y + 0.5 - cy));
  }
}

/** Parts of a pixel's side in which an outline's cover is counted. */
const PARTS = 4;

/** Shades what lies within a polygon: each pixel by the share of its parts that do (even-odd rule). */
function placeOutline(
  plane: Plane,
  outline: NonNullable<Dust["outline"]>,
  scale: number,
  cx: number,
  cy: number,
  shade: (x: number, y: number, distance: number) => void,
): void {
  const corners = outline.map(([x, y]) => [cx + x * scale, cy + y * scale] as const);
  const [xs, ys] = [corners.map(([x]) => x), corners.map(([, y]) => y)];
  const [x0, x1] = [Math.max(0, Math.floor(Math.min(...xs))), Math.min(plane.width - 1, Math.floor(Math.max(...xs)))];
  const [y0, y1] = [Math.max(0, Math.floor(Math.min(...ys))), Math.min(plane.height - 1, Math.floor(Math.max(...ys)))];
  for (let y = y0; y <= y1; y++) {
    const cover = new Float64Array(Math.max(0, x1 - x0 + 1));
    for (let row = 0; row < PARTS; row++) {
      const crossed = crossings(corners, y + (row + 0.5) / PARTS);
      for (let k = 0; k + 1 < crossed.length; k += 2)
        for (let x = Math.max(x0, Math.floor(crossed[k])); x <= Math.min(x1, Math.floor(crossed[k + 1])); x++)
          cover[x - x0] += (Math.min(x + 1, crossed[k + 1]) - Math.max(x, crossed[k])) / PARTS;
    }
    for (let x = x0; x <= x1; x++) if (cover[x - x0] > 0) shade(x, y, 0.5 - cover[x - x0]);
  }
}

/** Where a horizontal line crosses a polygon's sides, from left to right. */
function crossings(corners: readonly (readonly [number, number])[], y: number): number[] {
  return corners
    .flatMap(([ax, ay], k) => {
      const [bx, by] = corners[(k + 1) % corners.length];
      return ay <= y !== by <= y ? [ax + ((y - ay) / (by - ay)) * (bx - ax)] : [];
    })
    .toSorted((a, b) => a - b);
}

/** Distance from an irregular outline in pixels, negative inside. */
function speckDistance(d: Dust, scale: number): (x: number, y: number) => number {
  const r = random(d.shape);
  const waves = [2, 3, 5].map((k) => ({ k, size: r.between(0, 0.45 / k), phase: r.between(0, 2 * Math.PI) }));
  return (x, y) => {
    const angle = Math.atan2(y, x);
    const outline = waves.reduce((s, w) => s + w.size * Math.cos(w.k * angle + w.phase), 1);
    return Math.hypot(x, y) - d.radius * scale * outline;
  };
}

/** A hair is a bent arc: each pixel near it gets its distance from the nearest of the arc's points, less half its thickness. */
function placeHair(
  plane: Plane,
  d: Dust,
  scale: number,
  cx: number,
  cy: number,
  shade: (x: number, y: number, distance: number) => void,
): void {
  const r = random(d.shape);
  const bend = r.between(-1.8, 1.8) / d.length;
  const steps = Math.ceil(d.length * scale);
  const points: [number, number][] = [];
  let angle = r.between(0, 2 * Math.PI);
  let [x, y] = [0, 0];
  for (let i = 0; i <= steps; i++) {
    points.push([x, y]);
    x += Math.cos(angle) * (d.length / steps) * scale;
    y += Math.sin(angle) * (d.length / steps) * scale;
    angle += (bend * d.length) / steps;
  }
  // Around its own middle, so that its place is the middle of what is seen.
  const [mx, my] = points[points.length >> 1];
  const half = d.radius * scale;
  const reach = half + 1;
  const nearest = new Map<number, number>();
  for (const [qx, qy] of points) {
    const [px, py] = [cx + qx - mx, cy + qy - my];
    for (let v = Math.max(0, Math.floor(py - reach)); v < Math.min(plane.height, py + reach); v++)
      for (let u = Math.max(0, Math.floor(px - reach)); u < Math.min(plane.width, px + reach); u++) {
        const away = Math.hypot(u + 0.5 - px, v + 0.5 - py);
        const i = v * plane.width + u;
        if (away < (nearest.get(i) ?? Infinity)) nearest.set(i, away);
      }
  }
  for (const [i, away] of nearest) shade(i % plane.width, Math.floor(i / plane.width), away - half);
}

/** Light that the dirt lets through, per pixel of the scan. */
export function sensorDustShade(
  width: number,
  height: number,
  sensorDust: readonly SensorDust[],
): Float32Array | undefined {
  if (sensorDust.length === 0) return undefined;
  const shade = new Float32Array(width * height).fill(1);
  for (const d of sensorDust) {
    const [cx, cy, radius] = [d.x * width, d.y * width, d.radius * width];
    const reach = 2.2 * radius;
    for (let y = Math.max(0, Math.floor(cy - reach)); y < Math.min(height, cy + reach); y++)
      for (let x = Math.max(0, Math.floor(cx - reach)); x < Math.min(width, cx + reach); x++) {
        const t = Math.hypot(x + 0.5 - cx, y + 0.5 - cy) / radius;
        shade[y * width + x] *= 1 - d.depth / (1 + Math.exp((t - 1) * 6));
      }
  }
  return shade;
}
