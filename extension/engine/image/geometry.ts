/** Where a picture lies on its scan: crop, tilt, quarter turns and mirroring. */
import type { Area } from "../types.ts";

/** A quarter turn, clockwise, in degrees. */
export type Turn = 0 | 90 | 180 | 270;

/** Where a picture lies in its scan and how it is to stand: what a frame recipe says. */
export interface Framing {
  readonly area: Area;
  readonly turn: Turn;
  /** Left and right exchanged, before the turn. */
  readonly mirror: boolean;
}

/**
 * The one mapping behind crop, straightening and size, in pixels. The upright picture of `width` × `height` (before
 * mirror and turn) has its pixel (u, v) at the scan position
 *
 *     x = centreX + cos·p − sin·q,  y = centreY + sin·p + cos·q,
 *     p = (u + ½ − width/2)·stepX,  q = (v + ½ − height/2)·stepY.
 */
export interface Placement {
  readonly scanWidth: number;
  readonly scanHeight: number;
  readonly width: number;
  readonly height: number;
  readonly centreX: number;
  readonly centreY: number;
  readonly cos: number;
  readonly sin: number;
  readonly stepX: number;
  readonly stepY: number;
  /** True when every output pixel is exactly one scan pixel: samples are copied. */
  readonly exact: boolean;
  readonly mirror: boolean;
  readonly turn: Turn;
  /** Size of the finished picture, after the turn. */
  readonly finalWidth: number;
  readonly finalHeight: number;
}

/** A picture's longest side: JPEG cannot hold more, and no scan needs more. */
const LONGEST = 65_500;

/**
 * Works out a picture's size and mapping.
 *
 * @param size the scan's pixels.
 * @param wanted the longest side wanted, in pixels, which a picture is never enlarged to reach; or the exact width and
 *   height of the finished picture, after its turn.
 * @throws RangeError when the area is empty, not finite, or holds less than one pixel.
 */
export function place(
  size: { width: number; height: number },
  framing: Framing,
  wanted?: number | readonly [width: number, height: number],
): Placement {
  const { area, turn, mirror } = framing;
  const numbers = [area.left, area.top, area.width, area.height, area.tilt];
  if (!numbers.every(Number.isFinite)) throw new RangeError("The area holds a value that is not a number.");
  const wide = area.width * size.width;
  const high = area.height * size.height;
  if (wide < 1 || high < 1) throw new RangeError("The area is smaller than one pixel of the scan.");
  if (Math.max(wide, high) > LONGEST) throw new RangeError(`The picture is longer than ${LONGEST} pixels.`);

  const fullWidth = Math.round(wide);
  const fullHeight = Math.round(high);
  const [width, height] = uprightSize(fullWidth, fullHeight, turn, wanted);
  const sameSize = width === fullWidth && height === fullHeight;
  const exact = sameSize && area.tilt === 0;

  let centreX = (area.left + area.width / 2) * size.width;
  let centreY = (area.top + area.height / 2) * size.height;
  if (exact) {
    // An upright picture at full size is moved by less than half a pixel, on to the scan's own grid.
    centreX = Math.round(area.left * size.width) + width / 2;
    centreY = Math.round(area.top * size.height) + height / 2;
  }
  const angle = (area.tilt * Math.PI) / 180;
  const lying = turn === 90 || turn === 270;
  return {
    scanWidth: size.width,
    scanHeight: size.height,
    width,
    height,
    centreX,
    centreY,
    cos: Math.cos(angle),
    sin: Math.sin(angle),
    stepX: sameSize ? 1 : wide / width,
    stepY: sameSize ? 1 : high / height,
    exact,
    mirror,
    turn,
    finalWidth: lying ? height : width,
    finalHeight: lying ? width : height,
  };
}

function uprightSize(
  fullWidth: number,
  fullHeight: number,
  turn: Turn,
  wanted: number | readonly [width: number, height: number] | undefined,
): readonly [width: number, height: number] {
  if (typeof wanted === "object") return turn === 90 || turn === 270 ? [wanted[1], wanted[0]] : wanted;
  const shrink = wanted === undefined ? 1 : Math.min(1, wanted / Math.max(fullWidth, fullHeight));
  return [Math.max(1, Math.round(fullWidth * shrink)), Math.max(1, Math.round(fullHeight * shrink))];
}

/** An affine map of the plane: x' = a·x + c·y + e, y' = b·x + d·y + f. */
export interface PlaneMap {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly d: number;
  readonly e: number;
  readonly f: number;
}

/** From scan positions (pixels) to the picture as it is shown, mirrored and turned, in fractions of its width and height. */
export function toShown(p: Placement): PlaneMap {
  // Fractions of the upright picture first: u' = p / (stepX · width) + ½.
  const [w, h] = [p.width * p.stepX, p.height * p.stepY];
  const [ua, uc] = [p.cos / w, p.sin / w];
  const [va, vc] = [-p.sin / h, p.cos / h];
  const u: Line = [ua, uc, 0.5 - ua * p.centreX - uc * p.centreY];
  const v: Line = [va, vc, 0.5 - va * p.centreX - vc * p.centreY];
  const across = p.mirror ? reversed(u) : u;
  const [x, y] = {
    0: [across, v],
    90: [reversed(v), across],
    180: [reversed(across), reversed(v)],
    270: [v, reversed(across)],
  }[p.turn];
  return { a: x[0], c: x[1], e: x[2], b: y[0], d: y[1], f: y[2] };
}

/** A linear function of x and y: slopes and value at the origin. */
type Line = readonly [number, number, number];
const reversed = ([x, y, at]: Line): Line => [-x, -y, 1 - at];

/** Scan position (pixel coordinates, 0.5 is the middle of the first pixel) of a point of the upright picture. */
export function toScan(p: Placement, u: number, v: number): [x: number, y: number] {
  const dx = (u - p.width / 2) * p.stepX;
  const dy = (v - p.height / 2) * p.stepY;
  return [p.centreX + p.cos * dx - p.sin * dy, p.centreY + p.sin * dx + p.cos * dy];
}
