/** Shapes that things are built from. Sizes in metres; surface coordinates run in metres too, so that planks stay planks. */
import type { Builder } from "./mesh.ts";
import { add, cross, length, lerp, scale, sub, unit, type Vec } from "./vector.ts";

/** A flat four-sided piece; corners anticlockwise as seen from outside. Coordinates from the first corner along its edges. */
export function quad(b: Builder, p0: Vec, p1: Vec, p2: Vec, p3: Vec, u0 = 0, v0 = 0): void {
  const n = cross(sub(p1, p0), sub(p3, p0));
  const w = length(sub(p1, p0));
  const h = length(sub(p3, p0));
  const i = b.vertex(p0, n, u0, v0);
  const j = b.vertex(p1, n, u0 + w, v0);
  const k = b.vertex(p2, n, u0 + w, v0 + h);
  const l = b.vertex(p3, n, u0, v0 + h);
  b.triangle(i, j, k);
  b.triangle(i, k, l);
}

export function flat(b: Builder, p0: Vec, p1: Vec, p2: Vec): void {
  const n = cross(sub(p1, p0), sub(p2, p0));
  const e = unit(sub(p1, p0));
  const d = sub(p2, p0);
  const u = d[0] * e[0] + d[1] * e[1] + d[2] * e[2];
  b.triangle(
    b.vertex(p0, n, 0, 0),
    b.vertex(p1, n, length(sub(p1, p0)), 0),
    b.vertex(p2, n, u, length(sub(d, scale(e, u)))),
  );
}

/** A box from its lower to its upper corner. */
export function box(b: Builder, low: Vec, high: Vec): void {
  const [x0, y0, z0] = low;
  const [x1, y1, z1] = high;
  quad(b, [x0, y0, z1], [x1, y0, z1], [x1, y1, z1], [x0, y1, z1], x0, y0);
  quad(b, [x1, y0, z0], [x0, y0, z0], [x0, y1, z0], [x1, y1, z0], -x1, y0);
  quad(b, [x1, y0, z1], [x1, y0, z0], [x1, y1, z0], [x1, y1, z1], -z1, y0);
  quad(b, [x0, y0, z0], [x0, y0, z1], [x0, y1, z1], [x0, y1, z0], z0, y0);
  quad(b, [x0, y1, z1], [x1, y1, z1], [x1, y1, z0], [x0, y1, z0], x0, -z1);
  quad(b, [x0, y0, z0], [x1, y0, z0], [x1, y0, z1], [x0, y0, z1], x0, z0);
}

/** A beam of square section between two points. */
export function beam(b: Builder, from: Vec, to: Vec, wide: number, deep = wide): void {
  const d = sub(to, from);
  const l = length(d);
  const [side, up] = across(scale(d, 1 / l));
  const corner = (at: Vec, i: number): Vec =>
    add(at, add(scale(side, (i === 0 || i === 3 ? -wide : wide) / 2), scale(up, (i < 2 ? -deep : deep) / 2)));
  for (let i = 0; i < 4; i++) {
    const j = (i + 1) % 4;
    quad(b, corner(from, i), corner(to, i), corner(to, j), corner(from, j), 0, i * wide);
  }
  quad(b, corner(from, 3), corner(from, 2), corner(from, 1), corner(from, 0));
  quad(b, corner(to, 0), corner(to, 1), corner(to, 2), corner(to, 3));
}

/** Two directions across a third. */
function across(d: Vec): [Vec, Vec] {
  const side = unit(cross(Math.abs(d[1]) > 0.95 ? [1, 0, 0] : [0, 1, 0], d));
  return [side, cross(d, side)];
}

export interface PatchOptions {
  /** Joins the first and last column (a closed round). */
  readonly closed?: boolean;
  /** Turns the outside in. */
  readonly flip?: boolean;
  /** Surface coordinates; without it columns and rows counted 0 … 1. */
  readonly uv?: (s: number, t: number, p: Vec) => [number, number];
}

/** A smooth sheet: `f(s, t)` for s and t from 0 to 1, with normals from its own neighbours. Outside is s × t. */
export function patch(
  b: Builder,
  ns: number,
  nt: number,
  f: (s: number, t: number) => Vec,
  o: PatchOptions = {},
): void {
  const p: Vec[] = [];
  for (let j = 0; j <= nt; j++) for (let i = 0; i <= ns; i++) p.push(f(i / ns, j / nt));
  const w = ns + 1;
  const id: number[] = [];
  for (let j = 0; j <= nt; j++)
    for (let i = 0; i <= ns; i++) {
      const left = i > 0 ? i - 1 : o.closed ? ns - 1 : 0;
      const right = i < ns ? i + 1 : o.closed ? 1 : ns;
      const ds = sub(p[j * w + right], p[j * w + left]);
      let dt = sub(p[Math.min(nt, j + 1) * w + i], p[Math.max(0, j - 1) * w + i]);
      let across2 = ds;
      if (length(ds) < 1e-9) {
        // At a pole the round has no length: take the neighbouring row's.
        const jj = j === 0 ? 1 : j - 1;
        across2 = sub(p[jj * w + right], p[jj * w + left]);
      }
      if (length(dt) < 1e-9) dt = [0, 1, 0];
      const n = cross(across2, dt);
      const at = p[j * w + i];
      const [u, v] = o.uv ? o.uv(i / ns, j / nt, at) : [i / ns, j / nt];
      id.push(b.vertex(at, o.flip ? scale(n, -1) : n, u, v));
    }
  for (let j = 0; j < nt; j++)
    for (let i = 0; i < ns; i++) {
      const a = id[j * w + i];
      const c = id[j * w + i + 1];
      const d = id[(j + 1) * w + i + 1];
      const e = id[(j + 1) * w + i];
      b.triangle(a, c, d);
      b.triangle(a, d, e);
    }
}

/** A turned shape about the vertical: pairs of radius and height from the foot up. */
export function turned(b: Builder, profile: readonly (readonly [number, number])[], sides = 16): void {
  const along = [0];
  for (let i = 1; i < profile.length; i++)
    along.push(along[i - 1] + Math.hypot(profile[i][0] - profile[i - 1][0], profile[i][1] - profile[i - 1][1]));
  const widest = Math.max(...profile.map((q) => q[0]));
  const n = profile.length - 1;
  patch(
    b,
    sides,
    n,
    (s, t) => {
      const [r, y] = profile[Math.round(t * n)];
      const a = -s * Math.PI * 2;
      return [Math.cos(a) * r, y, Math.sin(a) * r];
    },
    { closed: true, uv: (s, t) => [s * widest * Math.PI * 2, along[Math.round(t * n)]] },
  );
}

/** A round bar along points, its radius given along the way (0 … 1). */
export function tube(b: Builder, path: readonly Vec[], radius: number | ((t: number) => number), sides = 8): void {
  const r = typeof radius === "number" ? () => radius : radius;
  const n = path.length - 1;
  let up: Vec = [0, 0, 0];
  const frames = path.map((p, i) => {
    const d = unit(sub(path[Math.min(n, i + 1)], path[Math.max(0, i - 1)]));
    if (i === 0) up = across(d)[1];
    const side = unit(cross(up, d));
    up = cross(d, side);
    return { p, side, up };
  });
  let run = 0;
  const along = path.map((p, i) => (run += i > 0 ? length(sub(p, path[i - 1])) : 0));
  patch(
    b,
    sides,
    n,
    (s, t) => {
      const i = Math.round(t * n);
      const a = s * Math.PI * 2;
      const k = r(t);
      return add(frames[i].p, add(scale(frames[i].side, Math.cos(a) * k), scale(frames[i].up, Math.sin(a) * k)));
    },
    { closed: true, uv: (s, t) => [s * r(0.5) * Math.PI * 2, along[Math.round(t * n)]] },
  );
}

/** Points of a rope hanging between two places, its middle `sag` metres low. */
export function hang(from: Vec, to: Vec, sag: number, parts = 12): Vec[] {
  return Array.from({ length: parts + 1 }, (_, i) => {
    const t = i / parts;
    const p = lerp(from, to, t);
    return [p[0], p[1] - sag * 4 * t * (1 - t), p[2]] as Vec;
  });
}

/** A ball, stretched as asked. */
export function ball(b: Builder, at: Vec, size: Vec, sides = 14): void {
  patch(
    b,
    sides,
    Math.max(4, sides >> 1),
    (s, t) => {
      const a = -s * Math.PI * 2;
      const e = (t - 0.5) * Math.PI;
      return [
        at[0] + Math.cos(a) * Math.cos(e) * size[0],
        at[1] + Math.sin(e) * size[1],
        at[2] + Math.sin(a) * Math.cos(e) * size[2],
      ];
    },
    { closed: true, uv: (s, t) => [s * size[0] * 6.283, t * size[1] * 3.14] },
  );
}
