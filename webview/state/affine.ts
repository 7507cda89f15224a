/** Affine maps of the plane: x' = a·x + c·y + e, y' = b·x + d·y + f, in the order that a canvas takes them. */
export interface Affine {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly d: number;
  readonly e: number;
  readonly f: number;
}

export type Point = readonly [x: number, y: number];

export const affine = (a: number, b: number, c: number, d: number, e: number, f: number): Affine => ({
  a,
  b,
  c,
  d,
  e,
  f,
});

export const moving = (x: number, y: number): Affine => affine(1, 0, 0, 1, x, y);
export const scaling = (x: number, y = x): Affine => affine(x, 0, 0, y, 0, 0);

/** Turns clockwise on a plane whose y runs downwards. */
export function rotation(degrees: number): Affine {
  const angle = (degrees * Math.PI) / 180;
  // Quarter turns are exact, so that edges stay on pixels.
  const [cos, sin] = degrees % 90 === 0 ? QUARTERS[(((degrees / 90) % 4) + 4) % 4] : [Math.cos(angle), Math.sin(angle)];
  return affine(cos, sin, -sin, cos, 0, 0);
}
const QUARTERS: readonly Point[] = [
  [1, 0],
  [0, 1],
  [-1, 0],
  [0, -1],
];

/** Does `first`, then each of `rest` in turn. */
export function chained(first: Affine, ...rest: readonly Affine[]): Affine {
  return rest.reduce(
    (m, n) =>
      affine(
        n.a * m.a + n.c * m.b,
        n.b * m.a + n.d * m.b,
        n.a * m.c + n.c * m.d,
        n.b * m.c + n.d * m.d,
        n.a * m.e + n.c * m.f + n.e,
        n.b * m.e + n.d * m.f + n.f,
      ),
    first,
  );
}

/** @throws RangeError where the map flattens the plane */
export function inverse(m: Affine): Affine {
  const det = m.a * m.d - m.b * m.c;
  if (!(Math.abs(det) > 1e-18)) throw new RangeError("This map has no way back: it flattens the plane.");
  return affine(
    m.d / det,
    -m.b / det,
    -m.c / det,
    m.a / det,
    (m.c * m.f - m.d * m.e) / det,
    (m.b * m.e - m.a * m.f) / det,
  );
}

export function apply(m: Affine, [x, y]: Point): Point {
  return [m.a * x + m.c * y + m.e, m.b * x + m.d * y + m.f];
}

/** How much longer lengths become: the root of the area's growth. */
export const growth = (m: Affine): number => Math.sqrt(Math.abs(m.a * m.d - m.b * m.c));

/** Column-major 3 × 3, as a shader takes it. */
export const shaderMatrix = (m: Affine): Float32Array => Float32Array.of(m.a, m.b, 0, m.c, m.d, 0, m.e, m.f, 1);
