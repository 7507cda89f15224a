/** Connected groups of pixels that are darker than their surroundings. */

/** A group: its pixels' places in the plane, and the rectangle around them. */
export interface Component {
  readonly pixels: readonly number[];
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
  /** Highest value in it, and where. */
  readonly peak: number;
  readonly peakAt: number;
}

export interface Levels {
  /** A group begins at a pixel above `high` and takes in its neighbours above `low`; both at a place of the plane. */
  high(place: number): number;
  low(place: number): number;
}

/** A larger group is no speck; following it further would cost time alone. */
const LARGEST = 3000;
/** A group's pixels reach down to this part of its peak. */
const SKIRT = 0.5;

/** Groups of pixels above their levels, strongest neighbours joined; those that grow beyond a speck's size are left out. */
export function components(values: Float32Array, width: number, height: number, levels: Levels): Component[] {
  const taken = new Uint8Array(values.length);
  const found: Component[] = [];
  for (let start = 0; start < values.length; start++) {
    if (taken[start] || values[start] === 0 || values[start] < levels.high(start)) continue;
    const peakAt = climb(values, width, height, start);
    const peak = values[peakAt];
    const floor = Math.max(levels.low(peakAt), SKIRT * peak);
    const pixels = [peakAt];
    if (taken[peakAt]) {
      taken[start] = 1;
      continue;
    }
    taken[peakAt] = 1;
    let [x0, y0, x1, y1] = [width, height, 0, 0];
    let top = peakAt;
    for (let k = 0; k < pixels.length && k <= LARGEST; k++) {
      const p = pixels[k];
      const x = p % width;
      const y = (p - x) / width;
      if (values[p] > values[top]) top = p;
      [x0, y0, x1, y1] = [Math.min(x0, x), Math.min(y0, y), Math.max(x1, x + 1), Math.max(y1, y + 1)];
      for (let dy = -1; dy <= 1; dy++)
        for (let dx = -1; dx <= 1; dx++) {
          const [nx, ny] = [x + dx, y + dy];
          if (nx < 0 || ny < 0 || nx >= width || ny >= height) continue;
          const q = ny * width + nx;
          if (taken[q] || values[q] < floor) continue;
          taken[q] = 1;
          pixels.push(q);
        }
    }
    taken[start] = 1;
    if (pixels.length <= LARGEST) found.push({ pixels, x0, y0, x1, y1, peak: values[top], peakAt: top });
  }
  return found;
}

/** Steps to the highest neighbour until there is none. */
function climb(values: Float32Array, width: number, height: number, start: number): number {
  let at = start;
  for (;;) {
    const x = at % width;
    const y = (at - x) / width;
    let best = at;
    for (let dy = -1; dy <= 1; dy++)
      for (let dx = -1; dx <= 1; dx++) {
        const [nx, ny] = [x + dx, y + dy];
        if (nx < 0 || ny < 0 || nx >= width || ny >= height) continue;
        if (values[ny * width + nx] > values[best]) best = ny * width + nx;
      }
    if (best === at) return at;
    at = best;
  }
}
