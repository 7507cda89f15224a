/** Pictures of a scan that shows several, each measured by its own edges, or placed by its neighbours' where it is too dark. */
import { median } from "../../math/statistics.ts";
import type { Area, Rgb, Side } from "../../types.ts";
import type { DownsampledScan } from "../downsampled-scan.ts";
import { type DensityAboveBase, densityAboveBaseOf } from "../edges.ts";
import { findFrame, type FoundFrame, isWhole, SIZE } from "../frame.ts";
import { placedFrame, withinSpread } from "../roll-place.ts";
import { findStrips, type RoughFrame, type RoughStrips } from "./find-strip.ts";

/** One picture of several on a scan; areas are fractions of the scan. */
export interface StripFrame extends FoundFrame {
  /** Strip on the scan, from 0: from the top, or from the left where strips stand upright. */
  readonly strip: number;
}

export interface FoundStrips {
  /** Strip by strip, in order along each. */
  readonly frames: readonly StripFrame[];
  /** Pictures that the view cuts off: the strip, and the side of the scan that it runs on to. */
  readonly cutOff: readonly { readonly strip: number; readonly side: Side }[];
  readonly upright: boolean;
}

/** Film around a picture in which its edges are looked for: above and below, and beside it at most, in parts of its width across. */
const AROUND = 0.05;
/** Part of the gap to a neighbour that is looked at. */
const PART_OF_GAP = 0.7;
/** A tilt that differs by more from its strip's is an edge of something in the picture, degrees. */
const MAX_TURN = 0.3;

/**
 * @param scan as fine as may be: edges are placed to a fraction of its pixels
 * @param coarse the same scan at most 1600 pixels wide: density above base, and how many of the scan's pixels make one
 * @param base density of the film's base
 * @param ratio longer over shorter side of the pictures, where the format is known
 * @returns undefined where the scan does not show several whole pictures beyond doubt
 */
export function findStripFrames(
  scan: () => DownsampledScan,
  coarse: DensityAboveBase & Pick<DownsampledScan, "shrink">,
  base: Rgb,
  ratio?: number,
): FoundStrips | undefined {
  const rough = findStrips(coarse, ratio);
  if (!rough) return undefined;
  const fine = scan();
  const scale = coarse.shrink / fine.shrink;
  const density = densityAboveBaseOf(fine, base);
  return {
    frames: rough.strips.flatMap(({ frames }, strip) =>
      measured(
        frames.map((f) => scaled(f, scale)),
        rough,
        density,
      ).map((frame) => ({ ...frame, strip })),
    ),
    cutOff: rough.strips.flatMap(({ cut }, strip) => cut.map((side) => ({ strip, side }))),
    upright: rough.upright,
  };
}

const scaled = (f: RoughFrame, by: number): RoughFrame => ({
  ...f,
  centre: [f.centre[0] * by, f.centre[1] * by],
  width: f.width * by,
  height: f.height * by,
  gaps: [f.gaps[0] * by, f.gaps[1] * by],
});

/** The pictures of one strip. */
function measured(rough: readonly RoughFrame[], strips: RoughStrips, density: DensityAboveBase): FoundFrame[] {
  const { upright, ratio } = strips;
  const alone = rough.map((frame) => {
    const window = windowAround(frame, upright, density);
    const found = findFrame(window.density, { ratio });
    return found && Math.abs(found.area.tilt - frame.tilt) < MAX_TURN ? onScan(found, window, density) : undefined;
  });
  const sure = alone.flatMap((found, k) => (found && isSure(found, rough[k], density) ? [{ found, k }] : []));
  if (sure.length === 0) return rough.map((frame) => placedFrame(areaOf(frame, density)));
  const { width, height } = density;
  const seen = sure.map(({ found, k }): Seen => {
    const { area } = found;
    return {
      k,
      tilt: area.tilt,
      centre: [(area.left + area.width / 2) * width, (area.top + area.height / 2) * height],
    };
  });
  const size = {
    width: median(sure.map(({ found }) => found.area.width)) * width,
    height: median(sure.map(({ found }) => found.area.height)) * height,
  };
  return rough.map((frame, k) => {
    const tilt = tiltAt(k, seen, size, upright);
    const own = alone[k];
    if (own && seen.some((one) => one.k === k) && isOfSize(own, size, density))
      return { ...own, area: { ...own.area, tilt } };
    const found = withNeighbours({
      frame: { ...frame, ...size, tilt, centre: centreBy(frame, k, seen, rough) },
      ratio,
      upright,
      density,
    });
    return { ...found, area: { ...found.area, tilt } };
  });
}

/** A picture whose four sides were seen: pixels of the scan, degrees. */
interface Seen {
  readonly k: number;
  readonly tilt: number;
  readonly centre: readonly [x: number, y: number];
}

/** Where a picture lies by the nearest that were seen: where the columns have it, corrected by what those were off. */
function centreBy(
  { centre }: RoughFrame,
  k: number,
  seen: readonly Seen[],
  rough: readonly RoughFrame[],
): readonly [number, number] {
  const least = Math.min(...seen.map((one) => Math.abs(one.k - k)));
  const near = seen.filter((one) => Math.abs(one.k - k) <= least + 1);
  const off = (axis: 0 | 1): number =>
    near.reduce((sum, one) => sum + one.centre[axis] - rough[one.k].centre[axis], 0) / near.length;
  return [centre[0] + off(0), centre[1] + off(1)];
}

/** Standard deviations of a picture's tilt by its own edges, as pixels over its width, and of its middle, pixels. */
const [EDGE_ERROR, MIDDLE_ERROR] = [0.3, 0.15];
/** Neighbours to either side whose middles tell how the strip lies there. */
const NEIGHBOURS = 2;

/** The tilt at a picture: by its own edges, and by the line through its middle and its neighbours', weighed by their errors. */
function tiltAt(k: number, seen: readonly Seen[], size: { width: number; height: number }, upright: boolean): number {
  const least = Math.min(...seen.map((one) => Math.abs(one.k - k)));
  const near = seen.filter((one) => Math.abs(one.k - k) <= Math.max(least, NEIGHBOURS));
  const own = near.filter((one) => Math.abs(one.k - k) === least);
  const weight = (Math.max(size.width, size.height) / EDGE_ERROR) ** 2;
  const edges = own.reduce((sum, one) => sum + one.tilt, 0) / own.length;
  if (near.length < 2) return edges;
  const [along, aside] = upright ? [1, 0] : [0, 1];
  const mean = (axis: number): number => near.reduce((sum, one) => sum + one.centre[axis], 0) / near.length;
  const [a, b] = [mean(along), mean(aside)];
  const spread = near.reduce((sum, one) => sum + (one.centre[along] - a) ** 2, 0);
  const slope = near.reduce((sum, one) => sum + (one.centre[along] - a) * (one.centre[aside] - b), 0) / spread;
  const line = (Math.atan(upright ? -slope : slope) * 180) / Math.PI;
  const lineWeight = spread / MIDDLE_ERROR ** 2;
  return (edges * weight + line * lineWeight) / (weight + lineWeight);
}

const isOfSize = ({ area }: FoundFrame, size: { width: number; height: number }, { width, height }: DensityAboveBase) =>
  Math.abs((area.width * width) / size.width - 1) < SIZE && Math.abs((area.height * height) / size.height - 1) < SIZE;

/** Whether all four sides were seen where the strip has the picture. */
function isSure(found: FoundFrame, { centre, width, height }: RoughFrame, e: DensityAboveBase): boolean {
  const { area } = found;
  const dx = (area.left + area.width / 2) * e.width - centre[0];
  const dy = (area.top + area.height / 2) * e.height - centre[1];
  return isWhole(found) && Math.hypot(dx, dy) < 0.04 * Math.min(width, height) && found.confidence > 0.6;
}

interface NeighbourFit {
  /** Where the strip says that it lies. */
  readonly frame: RoughFrame;
  readonly ratio: number;
  readonly upright: boolean;
  readonly density: DensityAboveBase;
}

/** A picture with sides that were not seen: those that are, and the rest as its neighbours lie. */
function withNeighbours({ frame, ratio, upright, density }: NeighbourFit): FoundFrame {
  const window = windowAround(frame, upright, density);
  const place = { ...inWindow(frame, window), spread: [0, 0] as const };
  const found = findFrame(window.density, { ratio, place });
  const fits =
    found &&
    Math.abs(found.area.tilt - frame.tilt) < MAX_TURN &&
    Math.abs(found.area.width / place.width - 1) < 2 * SIZE &&
    Math.abs(found.area.height / place.height - 1) < 2 * SIZE;
  return onScan(fits ? withinSpread(found, place) : placedFrame(place), window, density);
}

interface Window {
  readonly density: DensityAboveBase;
  readonly left: number;
  readonly top: number;
}

/** A picture with a little film around it; beyond that, all is as thin as base. */
function windowAround(frame: RoughFrame, upright: boolean, { width, height, value }: DensityAboveBase): Window {
  const across = upright ? frame.width : frame.height;
  const aside = AROUND * across;
  const [before, after] = frame.gaps.map((gap) => Math.max(4, Math.min(PART_OF_GAP * gap, 2 * aside)));
  const [l, t, r, b] = upright ? [aside, before, aside, after] : [before, aside, after, aside];
  const [cos, sin] = [Math.cos((frame.tilt * Math.PI) / 180), Math.sin((frame.tilt * Math.PI) / 180)];
  const [halfWidth, halfHeight] = [frame.width / 2, frame.height / 2];
  const reachX = (halfWidth + Math.max(l, r)) * cos + (halfHeight + Math.max(t, b)) * Math.abs(sin);
  const reachY = (halfHeight + Math.max(t, b)) * cos + (halfWidth + Math.max(l, r)) * Math.abs(sin);
  const [cx, cy] = frame.centre;
  const [left, top] = [Math.floor(cx - reachX), Math.floor(cy - reachY)];
  const [w, h] = [Math.ceil(cx + reachX) - left, Math.ceil(cy + reachY) - top];
  const out = new Float32Array(w * h);
  for (let y = 0; y < h; y++)
    for (let x = 0; x < w; x++) {
      const [sx, sy] = [left + x, top + y];
      if (sx < 0 || sy < 0 || sx >= width || sy >= height) {
        out[y * w + x] = NaN;
        continue;
      }
      const [dx, dy] = [sx + 0.5 - cx, sy + 0.5 - cy];
      const [p, q] = [cos * dx + sin * dy, cos * dy - sin * dx];
      const isNear = p > -halfWidth - l && p < halfWidth + r && q > -halfHeight - t && q < halfHeight + b;
      out[y * w + x] = isNear ? value[sy * width + sx] : 0;
    }
  return { density: { width: w, height: h, value: out }, left, top };
}

const areaOf = ({ centre, width, height, tilt }: RoughFrame, e: { width: number; height: number }): Area => ({
  left: (centre[0] - width / 2) / e.width,
  top: (centre[1] - height / 2) / e.height,
  width: width / e.width,
  height: height / e.height,
  tilt,
});

const inWindow = (frame: RoughFrame, { density, left, top }: Window): Area =>
  areaOf({ ...frame, centre: [frame.centre[0] - left, frame.centre[1] - top] }, density);

/** What was found in a window, as fractions of the scan. */
function onScan(found: FoundFrame, { density, left, top }: Window, scan: DensityAboveBase): FoundFrame {
  const { area } = found;
  return {
    ...found,
    area: {
      left: (left + area.left * density.width) / scan.width,
      top: (top + area.top * density.height) / scan.height,
      width: (area.width * density.width) / scan.width,
      height: (area.height * density.height) / scan.height,
      tilt: area.tilt,
    },
  };
}
