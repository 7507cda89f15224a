/** Soft, grown-together shapes (people, sheep, pears): a distance field turned into a smooth skin of triangles. */
import type { Builder } from "./mesh.ts";
import type { Material } from "./surface.ts";
import type { Vec } from "./vector.ts";

/** Distance to a shape: negative inside. */
export type Field = (x: number, y: number, z: number) => number;

/** A limb: round bar from `a` (radius `ra`) to `b` (radius `rb`). */
export function limb(a: Vec, b: Vec, ra: number, rb = ra): Field {
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  const dz = b[2] - a[2];
  const k = 1 / (dx * dx + dy * dy + dz * dz || 1);
  return (x, y, z) => {
    let t = ((x - a[0]) * dx + (y - a[1]) * dy + (z - a[2]) * dz) * k;
    t = t < 0 ? 0 : t > 1 ? 1 : t;
    const px = x - a[0] - dx * t;
    const py = y - a[1] - dy * t;
    const pz = z - a[2] - dz * t;
    return Math.sqrt(px * px + py * py + pz * pz) - ra - (rb - ra) * t;
  };
}

/** An egg: half-axes `size` about `at`. */
export function egg(at: Vec, size: Vec): Field {
  const m = Math.min(size[0], size[1], size[2]);
  return (x, y, z) => {
    const a = (x - at[0]) / size[0];
    const b = (y - at[1]) / size[1];
    const c = (z - at[2]) / size[2];
    return (Math.sqrt(a * a + b * b + c * c) - 1) * m;
  };
}

/** Shapes grown together over a distance `soft`. */
export function grown(soft: number, ...fields: readonly Field[]): Field {
  return (x, y, z) => {
    let d = fields[0](x, y, z);
    for (let i = 1; i < fields.length; i++) {
      const e = fields[i](x, y, z);
      const h = Math.max(soft - Math.abs(d - e), 0) / soft;
      d = Math.min(d, e) - h * h * soft * 0.25;
    }
    return d;
  };
}

/** Skins a field inside a box with cells of this size; `of` tells the material at a place. */
export function skin(
  b: Builder,
  field: Field,
  low: Vec,
  high: Vec,
  cell: number,
  of: (x: number, y: number, z: number) => Material,
  own = 0,
): void {
  const nx = Math.ceil((high[0] - low[0]) / cell) + 1;
  const ny = Math.ceil((high[1] - low[1]) / cell) + 1;
  const nz = Math.ceil((high[2] - low[2]) / cell) + 1;
  const d = sample(field, low, nx, ny, nz, cell);
  const id = new Int32Array(nx * ny * nz).fill(-1);
  const at = (h: number, j: number, k: number): number => (k * ny + j) * nx + h;
  const e = cell * 0.4;
  const places: Vec[] = [];
  for (let k = 0; k < nz - 1; k++)
    for (let j = 0; j < ny - 1; j++)
      for (let h = 0; h < nx - 1; h++) {
        const p = crossing(d, nx, ny, h, j, k);
        if (!p) continue;
        const x = low[0] + (h + p[0]) * cell;
        const y = low[1] + (j + p[1]) * cell;
        const z = low[2] + (k + p[2]) * cell;
        const n: Vec = [
          field(x + e, y, z) - field(x - e, y, z),
          field(x, y + e, z) - field(x, y - e, z),
          field(x, y, z + e) - field(x, y, z - e),
        ];
        id[at(h, j, k)] = b.vertex([x, y, z], n, x, y);
        places[id[at(h, j, k)]] = [x, y, z];
      }
  const face = (i0: number, i1: number, i2: number, i3: number, flip: boolean): void => {
    if (i0 < 0 || i1 < 0 || i2 < 0 || i3 < 0) return;
    const p = places[i0];
    b.use(of(p[0], p[1], p[2]), own);
    if (flip) {
      b.triangle(i0, i2, i1);
      b.triangle(i0, i3, i2);
    } else {
      b.triangle(i0, i1, i2);
      b.triangle(i0, i2, i3);
    }
  };
  for (let k = 1; k < nz - 1; k++)
    for (let j = 1; j < ny - 1; j++)
      for (let h = 1; h < nx - 1; h++) {
        const s = d[at(h, j, k)] < 0;
        if (s !== d[at(h + 1, j, k)] < 0)
          face(id[at(h, j - 1, k - 1)], id[at(h, j, k - 1)], id[at(h, j, k)], id[at(h, j - 1, k)], !s);
        if (s !== d[at(h, j + 1, k)] < 0)
          face(id[at(h - 1, j, k - 1)], id[at(h, j, k - 1)], id[at(h, j, k)], id[at(h - 1, j, k)], s);
        if (s !== d[at(h, j, k + 1)] < 0)
          face(id[at(h - 1, j - 1, k)], id[at(h, j - 1, k)], id[at(h, j, k)], id[at(h - 1, j, k)], !s);
      }
}

/** Mean of where the skin crosses the cell's edges, or nothing where it does not. */
function crossing(d: Float32Array, nx: number, ny: number, h: number, j: number, k: number): Vec | undefined {
  let x = 0;
  let y = 0;
  let z = 0;
  let n = 0;
  const v = (c: number): number => d[((k + (c >> 2)) * ny + j + ((c >> 1) & 1)) * nx + h + (c & 1)];
  for (let c = 0; c < 8; c++)
    for (let bit = 1; bit < 8; bit <<= 1) {
      if (c & bit) continue;
      const a = v(c);
      const b = v(c | bit);
      if (a < 0 === b < 0) continue;
      const t = a / (a - b);
      x += (c & 1) + (bit === 1 ? t : 0);
      y += ((c >> 1) & 1) + (bit === 2 ? t : 0);
      z += (c >> 2) + (bit === 4 ? t : 0);
      n++;
    }
  return n === 0 ? undefined : [x / n, y / n, z / n];
}

/** The field at every grid point; blocks that lie farther from the skin than they are wide get one value. */
function sample(field: Field, low: Vec, nx: number, ny: number, nz: number, cell: number): Float32Array {
  const d = new Float32Array(nx * ny * nz);
  const side = 4;
  // Grown fields and eggs understate distance a little: twice the half diagonal leaves room.
  const reach = cell * side * 1.8;
  for (let k = 0; k < nz; k += side)
    for (let j = 0; j < ny; j += side)
      for (let h = 0; h < nx; h += side) {
        const half = side / 2;
        const mid = field(low[0] + (h + half) * cell, low[1] + (j + half) * cell, low[2] + (k + half) * cell);
        const far = Math.abs(mid) > reach;
        for (let w = k; w < Math.min(nz, k + side); w++)
          for (let v = j; v < Math.min(ny, j + side); v++)
            for (let u = h; u < Math.min(nx, h + side); u++)
              d[(w * ny + v) * nx + u] = far ? mid : field(low[0] + u * cell, low[1] + v * cell, low[2] + w * cell);
      }
  return d;
}
