/** The dark things of a scan that may be dust on its film, each with what it is like. */
import type { LinearScan } from "../types.ts";
import type { FilmPlane, PixelBox } from "../flat-field/film-plane.ts";
import { maskOf, natureOf, type Nature } from "./measure.ts";
import { type DarkThing, darkening, darkThings, reachOf } from "./specks.ts";

/** A dark thing, in pixels of the half-size scan, and its nature. */
export interface Candidate extends DarkThing {
  readonly nature: Nature;
}

/** Half the side of the closing against which small things stand out; see `reachOf` for large ones. */
const NARROW = 5;
/** Film's dust darkens by more than this, as ln, and stands out of grain by so many deviations. */
const DARKEST_DUST = { least: 0.3, unrest: 3 };

/** A hair is this thin, in pixels of the half-size scan or parts of its width; what is thicker is a thing in the picture. */
const THICKEST_HAIR = { pixels: 4, width: 0.0022 };
/** A speck that is wider than this, in pixels of the half-size scan, is rather a thing in the picture. */
const WIDEST = 12;

function isDustShaped({ component, stretch, radius }: DarkThing, width: number): boolean {
  const { x0, y0, x1, y1, pixels, course } = component;
  const thickest = Math.max(THICKEST_HAIR.pixels, THICKEST_HAIR.width * width);
  if (course) return course.width <= thickest;
  return (stretch < 2.5 && radius < WIDEST) || pixels.length / Math.hypot(x1 - x0, y1 - y0) <= thickest;
}

/** A thing of whose pixels more than this part lie in things that came before is one of them. */
const DOUBLE = 0.25;

/** Lines first, for their pieces are no specks; then in their order, each without what lies in those before it. */
function withoutDoubles(things: readonly DarkThing[], places: number): DarkThing[] {
  const taken = new Uint8Array(places);
  const isLine = ({ component }: DarkThing): boolean => component.course !== undefined;
  return [...things.filter(isLine), ...things.filter((thing) => !isLine(thing))].filter(({ component: { pixels } }) => {
    const twice = pixels.reduce((sum, p) => sum + taken[p], 0);
    if (twice > DOUBLE * pixels.length) return false;
    for (const p of pixels) taken[p] = 1;
    return true;
  });
}

/** Looks through the box of a scan that was decoded at half size; `plane` is the same scan as transmittance. */
export function candidatesOf(scan: LinearScan, plane: FilmPlane, box: PixelBox): Candidate[] {
  const { width, height, channels, data, black } = scan;
  const green = new Uint16Array(width * height);
  for (let i = 0, k = channels === 3 ? 1 : 0; i < green.length; i++, k += channels) green[i] = data[k];
  // Small things first: against a narrow closing they stand out even where the picture is restless.
  const things = withoutDoubles(
    [NARROW, reachOf(width)].flatMap((reach) =>
      darkThings(darkening(green, black, width, height, box, reach), width, height, DARKEST_DUST),
    ),
    width * height,
  );
  const mask = maskOf(things, width, height);
  return things.flatMap((thing) => {
    if (!isDustShaped(thing, width)) return [];
    const nature = natureOf(thing, plane, mask);
    return nature ? [{ ...thing, nature }] : [];
  });
}
