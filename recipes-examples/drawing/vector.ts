/** Points and directions in metres: x to the right (east), y up, z towards the viewer (south). */
export type Vec = readonly [number, number, number];

export const add = (a: Vec, b: Vec): Vec => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
export const sub = (a: Vec, b: Vec): Vec => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const scale = (a: Vec, k: number): Vec => [a[0] * k, a[1] * k, a[2] * k];
export const cross = (a: Vec, b: Vec): Vec => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const length = (a: Vec): number => Math.hypot(a[0], a[1], a[2]);
export const unit = (a: Vec): Vec => scale(a, 1 / (length(a) || 1));
export const lerp = (a: Vec, b: Vec, t: number): Vec => [
  a[0] + (b[0] - a[0]) * t,
  a[1] + (b[1] - a[1]) * t,
  a[2] + (b[2] - a[2]) * t,
];

/** Direction from azimuth (degrees, 0 = away from the viewer, positive to the right) and elevation (degrees). */
export function direction(azimuth: number, elevation: number): Vec {
  const a = (azimuth * Math.PI) / 180;
  const e = (elevation * Math.PI) / 180;
  return [Math.sin(a) * Math.cos(e), Math.sin(e), -Math.cos(a) * Math.cos(e)];
}

/** Rows of a 3×4 placement: where a thing's own x, y, z axes and its origin lie in the scene. */
export type Placement = readonly number[];

export const here: Placement = [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0];

/** Put at a point, turned about the vertical (degrees, seen from above anticlockwise), scaled. */
export function place(at: Vec, turn = 0, size: number | Vec = 1): Placement {
  const a = (turn * Math.PI) / 180;
  const c = Math.cos(a);
  const s = Math.sin(a);
  const [sx, sy, sz] = typeof size === "number" ? [size, size, size] : size;
  return [c * sx, 0, s * sz, at[0], 0, sy, 0, at[1], -s * sx, 0, c * sz, at[2]];
}

/** Turned about one of the thing's own axes (degrees), then moved. */
export function tip(axis: "x" | "y" | "z", degrees: number, at: Vec = [0, 0, 0]): Placement {
  const a = (degrees * Math.PI) / 180;
  const c = Math.cos(a);
  const s = Math.sin(a);
  if (axis === "x") return [1, 0, 0, at[0], 0, c, -s, at[1], 0, s, c, at[2]];
  if (axis === "z") return [c, -s, 0, at[0], s, c, 0, at[1], 0, 0, 1, at[2]];
  return [c, 0, s, at[0], 0, 1, 0, at[1], -s, 0, c, at[2]];
}

/** First `b`, then `a`. */
export function after(a: Placement, b: Placement): Placement {
  const out: number[] = [];
  for (let r = 0; r < 3; r++)
    for (let c = 0; c < 4; c++) {
      let s = c === 3 ? a[r * 4 + 3] : 0;
      for (let k = 0; k < 3; k++) s += a[r * 4 + k] * b[k * 4 + c];
      out.push(s);
    }
  return out;
}

export function moved(m: Placement, p: Vec): Vec {
  return [
    m[0] * p[0] + m[1] * p[1] + m[2] * p[2] + m[3],
    m[4] * p[0] + m[5] * p[1] + m[6] * p[2] + m[7],
    m[8] * p[0] + m[9] * p[1] + m[10] * p[2] + m[11],
  ];
}
