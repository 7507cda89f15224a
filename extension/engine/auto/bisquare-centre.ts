/** The centre of points in a plane that others do not pull away: Tukey's bisquare (Beaton and Tukey 1974), reweighted. */
export interface BisquareCentre {
  readonly at: readonly [number, number];
  /** Sum of the points' weights, each 0 … 1. */
  readonly weight: number;
}

/**
 * @param start first guess; points further away than `width` do not count at first
 * @param width distance from the centre at which a point's weight becomes 0
 */
export function bisquareCentre(
  points: readonly (readonly [number, number])[],
  start: readonly [number, number],
  width: number,
  rounds: number,
): BisquareCentre {
  let [a, b] = start;
  let weight = 0;
  for (let round = 0; round < rounds && points.length; round++) {
    let [sum, sumA, sumB] = [0, 0, 0];
    for (const [p, q] of points) {
      const u = Math.hypot(p - a, q - b) / width;
      const w = u < 1 ? (1 - u * u) ** 2 : 0;
      sum += w;
      sumA += w * p;
      sumB += w * q;
    }
    weight = sum;
    if (sum === 0) break;
    [a, b] = [sumA / sum, sumB / sum];
  }
  return { at: [a, b], weight };
}
