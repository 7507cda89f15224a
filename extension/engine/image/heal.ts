/** Heals spots: fills each with a patch of the scan that suits its surroundings. */
import { discsAlong, type RoundSpot, type Spot } from "./spot.ts";
import type { LinearScan } from "../types.ts";
import { clamp } from "../math/clamp.ts";

/** A spot in pixels. */
interface Disc {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
  /** Width of the edge over which the patch fades in, outside the radius. */
  readonly feather: number;
}

/** Directions and distances (in reaches of the disc) in which patches are tried, in this order. */
const DIRECTIONS = 16;
const DISTANCES = [2.2, 3.1, 4.4];
/** Parts of the ring around a spot whose brightness a patch is fitted to. */
const SECTORS = 8;

/**
 * Replaces specks by nearby film, in place: the patch whose surroundings are most like the speck's, brought to their
 * brightness (a plane per channel, so falloff and gradients go on) and faded in at its edge. Copying a patch, rather
 * than smoothing over, lets the grain go on. The choice depends on the scan and the list alone. Spots that overlap
 * are never patched out of one another; spots that lie wholly outside the scan are left out. A line is healed disc by
 * disc along its course.
 *
 * @returns how many spots were healed, a line where a part of it was.
 */
export function heal(scan: LinearScan, spots: readonly Spot[]): number {
  const discs = spots.map((spot) =>
    discsAlong(spot)
      .map((disc) => discOf(disc, scan.width))
      .filter((d) => d.x > -d.radius && d.y > -d.radius && d.x < scan.width + d.radius && d.y < scan.height + d.radius),
  );
  const all = discs.flat();
  return discs.filter((own) => own.filter((disc) => healDisc(scan, disc, all)).length > 0).length;
}

/** Heals one disc; false where no patch is to be had. */
function healDisc(scan: LinearScan, disc: Disc, all: readonly Disc[]): boolean {
  // No patch lies farther away, so other discs do not matter.
  const far = (Math.max(...DISTANCES) + 3) * (disc.radius + disc.feather);
  const near = all.filter((d) => Math.hypot(d.x - disc.x, d.y - disc.y) < far + 2 * (d.radius + d.feather));
  const best = choose(scan, disc, near);
  if (best) patch(scan, disc, best);
  return best !== undefined;
}

/** A healed disc's middle, how far from it pixels change, and how far from it lies what they are made of; all in pixels. */
export interface HealedArea {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
  readonly reach: number;
}

/** The discs by which a spot is healed. */
export function healedAreas(spot: Spot, width: number): HealedArea[] {
  return discsAlong(spot).map((disc) => {
    const { x, y, radius, feather } = discOf(disc, width);
    const ring = radius + 2 * feather + 2;
    return { x, y, radius: ring, reach: Math.max(...DISTANCES) * (radius + feather) + ring + 1 };
  });
}

function discOf([x, y, radius]: RoundSpot, width: number): Disc {
  const r = Math.max(1.5, radius * width);
  return { x: x * width, y: y * width, radius: r, feather: Math.max(1.5, 0.3 * r) };
}

interface Candidate {
  readonly dx: number;
  readonly dy: number;
  /** Per channel: gain = a + b·x + c·y around the disc's centre, x and y in reaches. */
  readonly gains: readonly (readonly [number, number, number])[];
}

/** Best of the patches around; undefined when none lies inside the scan and clear of other spots. */
function choose(scan: LinearScan, disc: Disc, all: readonly Disc[]): Candidate | undefined {
  const ring = ringOffsets(disc, scan, all);
  const here = sample(scan, disc, ring, 0, 0);
  let best: Candidate | undefined;
  let minCost = Infinity;
  for (const distance of DISTANCES)
    for (let k = 0; k < DIRECTIONS; k++) {
      const angle = (2 * Math.PI * k) / DIRECTIONS;
      const far = distance * (disc.radius + disc.feather);
      const dx = Math.round(far * Math.cos(angle));
      const dy = Math.round(far * Math.sin(angle));
      if (!clear(scan, disc, dx, dy, all)) continue;
      const there = sample(scan, disc, ring, dx, dy);
      const gains = here.sectors.map((own, c) => fitPlane(own, there.sectors[c]));
      const score = mismatch(ring, here.values, there.values, gains, scan.channels) * (1 + 0.05 * distance);
      if (score < minCost) {
        minCost = score;
        best = { dx, dy, gains };
      }
    }
  return best;
}

/** Whether a shifted patch lies inside the scan and touches no spot, not even the one it is for. */
function clear(scan: LinearScan, disc: Disc, dx: number, dy: number, all: readonly Disc[]): boolean {
  const reach = disc.radius + 2 * disc.feather;
  const x = disc.x + dx;
  const y = disc.y + dy;
  if (x < reach || y < reach || x > scan.width - 1 - reach || y > scan.height - 1 - reach) return false;
  return all.every((d) => Math.hypot(d.x - x, d.y - y) > disc.radius + disc.feather + d.radius);
}

/** A pixel of the ring around a speck: its offset from the centre and the sector it lies in. */
interface RingPixel {
  readonly x: number;
  readonly y: number;
  readonly sector: number;
}

/** The ring just outside the speck, as far as it lies inside the scan and under no other speck; some hundred pixels. */
function ringOffsets(disc: Disc, scan: LinearScan, all: readonly Disc[]): RingPixel[] {
  const [cx, cy] = [Math.round(disc.x - 0.5), Math.round(disc.y - 0.5)];
  const outer = disc.radius + 2 * disc.feather + 1;
  const others = all.filter((d) => d !== disc && Math.hypot(d.x - disc.x, d.y - disc.y) < outer + d.radius + d.feather);
  const step = Math.max(1, Math.round(outer / 12));
  const offsets: RingPixel[] = [];
  for (let y = -Math.ceil(outer); y <= outer; y += step)
    for (let x = -Math.ceil(outer); x <= outer; x += step) {
      const r = Math.hypot(x, y);
      const [px, py] = [cx + x, cy + y];
      if (r <= disc.radius + 0.5 || r > outer) continue;
      if (px < 0 || py < 0 || px >= scan.width || py >= scan.height) continue;
      if (others.some((d) => Math.hypot(d.x - px - 0.5, d.y - py - 0.5) < d.radius + d.feather)) continue;
      const turn = Math.atan2(y, x) / (2 * Math.PI) + 0.5;
      offsets.push({ x, y, sector: Math.min(SECTORS - 1, Math.floor(turn * SECTORS)) });
    }
  return offsets;
}

interface Ring {
  /** Samples above black, channels interleaved. */
  readonly values: Float64Array;
  /** Per channel, the sectors' means. */
  readonly sectors: Float64Array[];
}

function sample(scan: LinearScan, disc: Disc, ring: readonly RingPixel[], dx: number, dy: number): Ring {
  const { width, height, channels, data, black } = scan;
  const values = new Float64Array(ring.length * channels);
  const sectors = Array.from({ length: channels }, () => new Float64Array(SECTORS));
  const counts = new Float64Array(SECTORS);
  const cx = Math.round(disc.x - 0.5) + dx;
  const cy = Math.round(disc.y - 0.5) + dy;
  for (let i = 0; i < ring.length; i++) {
    // A patch may lie so near the border that its own ring reaches beyond it.
    const x = clamp(cx + ring[i].x, 0, width - 1);
    const y = clamp(cy + ring[i].y, 0, height - 1);
    counts[ring[i].sector]++;
    for (let c = 0; c < channels; c++) {
      const v = Math.max(1, data[(y * width + x) * channels + c] - black);
      values[i * channels + c] = v;
      sectors[c][ring[i].sector] += v;
    }
  }
  for (const s of sectors) for (let k = 0; k < SECTORS; k++) s[k] = s[k] / Math.max(1, counts[k]);
  return { values, sectors };
}

/** The plane through the sectors' ratios own/other; sectors lie evenly on a circle, so the sums separate. */
function fitPlane(own: Float64Array, other: Float64Array): [number, number, number] {
  const ratios = Array.from(own, (v, k) => (v > 0 && other[k] > 0 ? clamp(v / other[k], 1 / 3, 3) : NaN));
  const seen = ratios.filter((r) => !Number.isNaN(r));
  if (seen.length === 0) return [1, 0, 0];
  const mean = seen.reduce((a, b) => a + b, 0) / seen.length;
  let b = 0;
  let c = 0;
  for (let k = 0; k < SECTORS; k++) {
    // Sectors beyond the scan's border, or under other dust, say nothing about a slope.
    const ratio = Number.isNaN(ratios[k]) ? mean : ratios[k];
    const angle = ((k + 0.5) / SECTORS - 0.5) * 2 * Math.PI;
    b += (ratio * Math.cos(angle) * 2) / SECTORS;
    c += (ratio * Math.sin(angle) * 2) / SECTORS;
  }
  return [mean, b, c];
}

/** Mean squared relative difference between the ring and the matched ring of a patch. */
function mismatch(
  ring: readonly RingPixel[],
  here: Float64Array,
  there: Float64Array,
  gains: Candidate["gains"],
  channels: number,
): number {
  const reach = Math.max(...ring.map((o) => Math.hypot(o.x, o.y)));
  let sum = 0;
  for (let i = 0; i < ring.length; i++)
    for (let c = 0; c < channels; c++) {
      const [a, b, d] = gains[c];
      const gain = a + (b * ring[i].x + d * ring[i].y) / reach;
      const own = here[i * channels + c];
      const diff = (there[i * channels + c] * gain - own) / own;
      sum += Math.min(diff * diff, 1);
    }
  return sum;
}

function patch(scan: LinearScan, disc: Disc, from: Candidate): void {
  const { width, height, channels, data, black } = scan;
  const reach = disc.radius + disc.feather;
  const cx = Math.round(disc.x - 0.5);
  const cy = Math.round(disc.y - 0.5);
  const outer = disc.radius + 2 * disc.feather + 1;
  for (let y = Math.max(0, Math.floor(cy - reach)); y <= Math.min(height - 1, Math.ceil(cy + reach)); y++)
    for (let x = Math.max(0, Math.floor(cx - reach)); x <= Math.min(width - 1, Math.ceil(cx + reach)); x++) {
      const r = Math.hypot(x + 0.5 - disc.x, y + 0.5 - disc.y);
      if (r >= reach) continue;
      const t = Math.min(1, (reach - r) / disc.feather);
      const alpha = t * t * (3 - 2 * t);
      const source = ((y + from.dy) * width + x + from.dx) * channels;
      const target = (y * width + x) * channels;
      for (let c = 0; c < channels; c++) {
        const [a, b, d] = from.gains[c];
        const gain = a + (b * (x - cx) + d * (y - cy)) / outer;
        const value = black + (data[source + c] - black) * gain;
        const mixed = data[target + c] + alpha * (value - data[target + c]);
        data[target + c] = clamp(Math.round(mixed), 0, 65535);
      }
    }
}
