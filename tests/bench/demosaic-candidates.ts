/** Other ways to demosaic, to compare ours with. Plain and slow; pictures are mirrored at the edges. */
import { balanceOf, type Mosaic } from "../../extension/scans/raw/mosaic.ts";

/** Signal 0 … 1 of the three channels, interleaved. */
export type Candidate = (mosaic: Mosaic) => Float32Array;

type Balance = readonly [number, number, number];
/** Balanced recorded number at a place, and the colour there. */
interface Sites {
  readonly at: (x: number, y: number) => number;
  readonly colour: (x: number, y: number) => number;
}

function candidate(
  interpolate: (sites: Sites, x: number, y: number, colour: number) => number,
  balanced = true,
): Candidate {
  return (mosaic) => {
    const { width, height, data, stride, left, top, colours, black, white } = mosaic;
    const balance: Balance = balanced ? balanceOf(mosaic) : [1, 1, 1];
    const mirror = (i: number, n: number) => (i < 0 ? -i : i < n ? i : 2 * n - 2 - i);
    const colour = (x: number, y: number) => colours[(y & 1) * 2 + (x & 1)];
    const at = (x: number, y: number) => {
      const u = mirror(x, width);
      const v = mirror(y, height);
      return (data[(top + v) * stride + left + u] - black[0]) * balance[colour(u, v)];
    };
    const out = new Float32Array(width * height * 3);
    for (let y = 0; y < height; y++)
      for (let x = 0; x < width; x++)
        for (let c = 0; c < 3; c++) {
          const value = colour(x, y) === c ? at(x, y) : interpolate({ at, colour }, x, y, c);
          out[(y * width + x) * 3 + c] = value / balance[c] / (white - black[0]);
        }
    return out;
  };
}

/** Mean of the nearest sites of the colour. */
function nearestMean({ at, colour }: Sites, x: number, y: number, c: number): number {
  let sum = 0;
  let count = 0;
  for (let dy = -1; dy <= 1; dy++)
    for (let dx = -1; dx <= 1; dx++)
      if (colour((x + dx) & 1, (y + dy) & 1) === c && (c !== 1 || dx === 0 || dy === 0)) {
        sum += at(x + dx, y + dy);
        count++;
      }
  return sum / count;
}

export const bilinear = candidate(nearestMean);

/** Gradient-corrected linear interpolation: H. S. Malvar, L. He, R. Cutler, ICASSP 2004, figure 2. */
function malvarAt({ at, colour }: Sites, x: number, y: number, c: number): number {
  const here = at(x, y);
  const near = (dx: number, dy: number) => at(x + dx, y + dy);
  const plus2 = near(-2, 0) + near(2, 0) + near(0, -2) + near(0, 2);
  const corners = near(-1, -1) + near(1, -1) + near(-1, 1) + near(1, 1);
  if (c === 1) return (4 * here + 2 * (near(-1, 0) + near(1, 0) + near(0, -1) + near(0, 1)) - plus2) / 8;
  if (colour(x & 1, y & 1) !== 1) return (6 * here + 2 * corners - 1.5 * plus2) / 8;
  const alongRow = colour((x + 1) & 1, y & 1) === c;
  const [a, b] = alongRow ? [near(-1, 0), near(1, 0)] : [near(0, -1), near(0, 1)];
  const far = alongRow ? near(-2, 0) + near(2, 0) : near(0, -2) + near(0, 2);
  const side = alongRow ? near(0, -2) + near(0, 2) : near(-2, 0) + near(2, 0);
  return (5 * here + 4 * (a + b) - corners - far + 0.5 * side) / 8;
}

export const malvar = candidate(malvarAt);
export const malvarUnbalanced = candidate(malvarAt, false);
