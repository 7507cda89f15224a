/** Where the neighbours lie in a 6 × 6 filter arrangement. Nothing here knows the makers' pattern. */

export const PERIOD = 6;
/** Farthest neighbour looked at, in sites. */
export const REACH = 2;

/** Distance to the nearest green site each way. */
export interface GreenDistances {
  readonly left: number;
  readonly right: number;
  readonly up: number;
  readonly down: number;
}

/** A neighbour: its place relative to the site, and its share. */
export interface Tap {
  readonly dy: number;
  readonly dx: number;
  readonly weight: number;
}

const STEPS = Array.from({ length: REACH }, (_, i) => i + 1);

/**
 * Whether colours can be made of an arrangement: every site has green near it in each direction, and red and blue
 * somewhere near. Damaged files claim others.
 */
export function isUsable(colours: readonly number[]): boolean {
  const near = (site: number, dy: number, dx: number): boolean =>
    STEPS.some((step) => colourNear(colours, site, dy * step, dx * step) === 1);
  return (
    colours.every(
      (colour, site) =>
        colour === 1 || (near(site, 0, -1) && near(site, 0, 1) && near(site, -1, 0) && near(site, 1, 0)),
    ) && [0, 1, 2].every((wanted) => colourTaps(colours, wanted).every((taps) => taps.length > 0))
  );
}

/** For every site of the block that is not green; the arrangement is usable. */
export function greenDistances(colours: readonly number[]): (GreenDistances | undefined)[] {
  return colours.map((colour, site) => {
    if (colour === 1) return undefined;
    const distance = (dy: number, dx: number) => {
      for (let step = 1; step <= REACH; step++) if (colourNear(colours, site, dy * step, dx * step) === 1) return step;
      throw new Error("This filter arrangement has a site without green within two sites.");
    };
    return { left: distance(0, -1), right: distance(0, 1), up: distance(-1, 0), down: distance(1, 0) };
  });
}

/** For every site of the block, the neighbours of `wanted` colour, with shares that fall with squared distance. */
export function colourTaps(colours: readonly number[], wanted: number): Tap[][] {
  return colours.map((colour, site) => {
    if (colour === wanted) return [{ dy: 0, dx: 0, weight: 1 }];
    const taps: Tap[] = [];
    for (let dy = -REACH; dy <= REACH; dy++)
      for (let dx = -REACH; dx <= REACH; dx++)
        if (colourNear(colours, site, dy, dx) === wanted) taps.push({ dy, dx, weight: 1 / (dy * dy + dx * dx) });
    return taps;
  });
}

function colourNear(colours: readonly number[], site: number, dy: number, dx: number): number {
  const y = Math.floor(site / PERIOD) + dy;
  const x = (site % PERIOD) + dx;
  return colours[((y + PERIOD) % PERIOD) * PERIOD + ((x + PERIOD) % PERIOD)];
}
