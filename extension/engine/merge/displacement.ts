/** Where a place of one scan lies on another scan of the same picture: shift, rotation, and what a camera in the hand adds. */

/**
 * A smooth displacement, linear in its eight terms. With X, Y the place counted from the middle in parts of half the
 * diagonal:
 *
 *     dx = t0 + t1·X + t2·Y + X·(t6·X + t7·Y)        dy = t3 + t4·X + t5·Y + Y·(t6·X + t7·Y)
 *
 * A rotation and a change of size are exact in t1, t2, t4, t5; t6 and t7 are the keystone of a tilted camera, to first
 * order.
 */
export interface Displacement {
  /** Size of the scans in pixels. */
  readonly width: number;
  readonly height: number;
  /** In pixels. */
  readonly terms: Terms;
}

export type Terms = readonly [number, number, number, number, number, number, number, number];

export const NO_TERMS: Terms = [0, 0, 0, 0, 0, 0, 0, 0];

/** Half the diagonal in pixels. */
export const unitOf = ({ width, height }: { readonly width: number; readonly height: number }): number =>
  Math.hypot(width, height) / 2;

/** Writes displacements to `to`, in pixels: for loops over pixels. */
export interface Displacer {
  (x: number, y: number): void;
  readonly to: { dx: number; dy: number };
}

/** The displacement of the pixel whose centre is at (x, y); the first pixel's is at (0, 0). */
export function displacer({ width, height, terms: [t0, t1, t2, t3, t4, t5, t6, t7] }: Displacement): Displacer {
  const unit = unitOf({ width, height });
  const [left, top] = [(width - 1) / 2, (height - 1) / 2];
  const to = { dx: 0, dy: 0 };
  const move = (x: number, y: number): void => {
    const X = (x - left) / unit;
    const Y = (y - top) / unit;
    const keystone = t6 * X + t7 * Y;
    to.dx = t0 + t1 * X + t2 * Y + X * keystone;
    to.dy = t3 + t4 * X + t5 * Y + Y * keystone;
  };
  return Object.assign(move, { to });
}

/** The same for one place. */
export function displacementAt(displacement: Displacement, x: number, y: number): [number, number] {
  const move = displacer(displacement);
  move(x, y);
  return [move.to.dx, move.to.dy];
}

/** The longest displacement in pixels at the corners, the middles of the sides and the middle. */
export function largestDisplacement(displacement: Displacement): number {
  const { width, height } = displacement;
  const along = (length: number): number[] => [0, (length - 1) / 2, length - 1];
  const lengths = along(width).flatMap((x) =>
    along(height).map((y) => Math.hypot(...displacementAt(displacement, x, y))),
  );
  return Math.max(...lengths);
}
