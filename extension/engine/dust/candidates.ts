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

/** A hair is this thin, in pixels of the half-size scan; what is long and thicker is a thing in the picture. */
const THICKEST_HAIR = 4;

/** A speck that is wider than this, in pixels of the half-size scan, is rather a thing in the picture. */
const WIDEST = 12;

function isDustShaped({ component, stretch, radius }: DarkThing): boolean {
  const { x0, y0, x1, y1, pixels } = component;
  return (stretch < 2.5 && radius < WIDEST) || pixels.length / Math.hypot(x1 - x0, y1 - y0) <= THICKEST_HAIR;
}

/** Side of the cells in which doubles are looked for: no thing's radius is greater. */
const CELL = 32;

/** Leaves out things whose middle lies in one that came before, or the other way round. */
function withoutDoubles(things: readonly DarkThing[]): DarkThing[] {
  const cells = new Map<number, DarkThing[]>();
  const key = (x: number, y: number): number => y * 65536 + x;
  return things.filter((thing) => {
    const [cx, cy] = [Math.floor(thing.x / CELL), Math.floor(thing.y / CELL)];
    for (let y = cy - 1; y <= cy + 1; y++)
      for (let x = cx - 1; x <= cx + 1; x++)
        for (const t of cells.get(key(x, y)) ?? [])
          if (Math.hypot(t.x - thing.x, t.y - thing.y) < Math.max(2, t.radius, thing.radius)) return false;
    const cell = cells.get(key(cx, cy));
    if (cell) cell.push(thing);
    else cells.set(key(cx, cy), [thing]);
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
  );
  const mask = maskOf(things, width, height);
  return things.filter(isDustShaped).flatMap((thing) => {
    const nature = natureOf(thing, plane, mask);
    return nature ? [{ ...thing, nature }] : [];
  });
}
