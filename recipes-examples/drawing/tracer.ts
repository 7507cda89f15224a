/** Finds what a ray meets first: a tree of boxes over triangles, built by the surface-area rule, walked near side first. */
import type { Mesh } from "./mesh.ts";
import { grow } from "./tree.ts";

export class Tracer {
  readonly mesh: Mesh;
  private readonly box: Float32Array;
  private readonly child: Int32Array;
  private readonly count: Int32Array;
  private readonly shape: Float32Array;
  private readonly order: Uint32Array;
  private readonly stack = new Int32Array(96);
  private readonly stackNear = new Float64Array(96);
  /** Of the last hit: distance along the ray (in lengths of its direction) and weights of corners two and three. */
  t = 0;
  u = 0;
  v = 0;
  private last = -1;

  constructor(mesh: Mesh) {
    this.mesh = mesh;
    const tree = grow(mesh);
    this.box = tree.box;
    this.child = tree.child;
    this.count = tree.count;
    this.order = tree.order;
    this.shape = shapes(mesh, tree.order);
  }

  /** Nearest triangle within `far`, or −1. */
  trace(ox: number, oy: number, oz: number, dx: number, dy: number, dz: number, far: number): number {
    return this.walk(ox, oy, oz, dx, dy, dz, far, false);
  }

  /** Whether anything stands within `far`. */
  blocked(ox: number, oy: number, oz: number, dx: number, dy: number, dz: number, far: number): boolean {
    // What stood in the way of the ray before often stands in the way of this one too.
    if (this.last >= 0 && this.meets(this.last * 9, ox, oy, oz, dx, dy, dz, far)) return true;
    return this.walk(ox, oy, oz, dx, dy, dz, far, true) >= 0;
  }

  private meets(
    o: number,
    ox: number,
    oy: number,
    oz: number,
    dx: number,
    dy: number,
    dz: number,
    far: number,
  ): boolean {
    const s = this.shape;
    const px = dy * s[o + 8] - dz * s[o + 7];
    const py = dz * s[o + 6] - dx * s[o + 8];
    const pz = dx * s[o + 7] - dy * s[o + 6];
    const inv = 1 / (s[o + 3] * px + s[o + 4] * py + s[o + 5] * pz);
    const sx = ox - s[o];
    const sy = oy - s[o + 1];
    const sz = oz - s[o + 2];
    const u = (sx * px + sy * py + sz * pz) * inv;
    if (!(u >= 0 && u <= 1)) return false;
    const qx = sy * s[o + 5] - sz * s[o + 4];
    const qy = sz * s[o + 3] - sx * s[o + 5];
    const qz = sx * s[o + 4] - sy * s[o + 3];
    const v = (dx * qx + dy * qy + dz * qz) * inv;
    if (!(v >= 0 && u + v <= 1)) return false;
    const t = (s[o + 6] * qx + s[o + 7] * qy + s[o + 8] * qz) * inv;
    return t > 0 && t < far;
  }

  private walk(
    ox: number,
    oy: number,
    oz: number,
    dx: number,
    dy: number,
    dz: number,
    far: number,
    any: boolean,
  ): number {
    const { box, child, count, shape, stack, stackNear } = this;
    const ix = 1 / (Math.abs(dx) < 1e-12 ? 1e-12 : dx);
    const iy = 1 / (Math.abs(dy) < 1e-12 ? 1e-12 : dy);
    const iz = 1 / (Math.abs(dz) < 1e-12 ? 1e-12 : dz);
    // Which of a box's two planes comes first does not change along the ray.
    const x0 = ix < 0 ? 3 : 0;
    const y0 = iy < 0 ? 4 : 1;
    const z0 = iz < 0 ? 5 : 2;
    const x1 = 3 - x0;
    const y1 = 5 - y0;
    const z1 = 7 - z0;
    let best = far;
    let found = -1;
    let top = 0;
    let node = 0;
    if (count.length === 0) return -1;
    for (;;) {
      const n = count[node];
      if (n > 0) {
        const first = child[node];
        for (let i = first, o = first * 9; i < first + n; i++, o += 9) {
          const e1x = shape[o + 3];
          const e1y = shape[o + 4];
          const e1z = shape[o + 5];
          const e2x = shape[o + 6];
          const e2y = shape[o + 7];
          const e2z = shape[o + 8];
          const px = dy * e2z - dz * e2y;
          const py = dz * e2x - dx * e2z;
          const pz = dx * e2y - dy * e2x;
          const det = e1x * px + e1y * py + e1z * pz;
          if (det === 0) continue;
          const inv = 1 / det;
          const sx = ox - shape[o];
          const sy = oy - shape[o + 1];
          const sz = oz - shape[o + 2];
          const u = (sx * px + sy * py + sz * pz) * inv;
          if (u < 0 || u > 1) continue;
          const qx = sy * e1z - sz * e1y;
          const qy = sz * e1x - sx * e1z;
          const qz = sx * e1y - sy * e1x;
          const v = (dx * qx + dy * qy + dz * qz) * inv;
          if (v < 0 || u + v > 1) continue;
          const t = (e2x * qx + e2y * qy + e2z * qz) * inv;
          if (t <= 0 || t >= best) continue;
          best = t;
          found = i;
          this.u = u;
          this.v = v;
          if (any) {
            this.last = found;
            return found;
          }
        }
      } else {
        const l = child[node];
        const a = l * 6;
        const b = a + 6;
        let na = (box[a + x0] - ox) * ix;
        let fa = (box[a + x1] - ox) * ix;
        let n1 = (box[a + y0] - oy) * iy;
        let f1 = (box[a + y1] - oy) * iy;
        if (n1 > na) na = n1;
        if (f1 < fa) fa = f1;
        n1 = (box[a + z0] - oz) * iz;
        f1 = (box[a + z1] - oz) * iz;
        if (n1 > na) na = n1;
        if (f1 < fa) fa = f1;
        let nb = (box[b + x0] - ox) * ix;
        let fb = (box[b + x1] - ox) * ix;
        n1 = (box[b + y0] - oy) * iy;
        f1 = (box[b + y1] - oy) * iy;
        if (n1 > nb) nb = n1;
        if (f1 < fb) fb = f1;
        n1 = (box[b + z0] - oz) * iz;
        f1 = (box[b + z1] - oz) * iz;
        if (n1 > nb) nb = n1;
        if (f1 < fb) fb = f1;
        const hitA = fa >= na && fa > 0 && na < best;
        const hitB = fb >= nb && fb > 0 && nb < best;
        if (hitA && hitB) {
          if (na <= nb) {
            stack[top] = l + 1;
            stackNear[top++] = nb;
            node = l;
          } else {
            stack[top] = l;
            stackNear[top++] = na;
            node = l + 1;
          }
          continue;
        }
        if (hitA) {
          node = l;
          continue;
        }
        if (hitB) {
          node = l + 1;
          continue;
        }
      }
      do {
        if (top === 0) {
          this.t = best;
          return found < 0 ? -1 : this.order[found];
        }
        top--;
      } while (stackNear[top] >= best);
      node = stack[top];
    }
  }
}

/** First corner and two edges of each triangle, in the order of the tree's leaves. */
function shapes(mesh: Mesh, order: Uint32Array): Float32Array {
  const out = new Float32Array(order.length * 9);
  for (let i = 0; i < order.length; i++) {
    const c = order[i] * 3;
    const a = mesh.corner[c] * 3;
    const b = mesh.corner[c + 1] * 3;
    const d = mesh.corner[c + 2] * 3;
    for (let k = 0; k < 3; k++) {
      out[i * 9 + k] = mesh.point[a + k];
      out[i * 9 + 3 + k] = mesh.point[b + k] - mesh.point[a + k];
      out[i * 9 + 6 + k] = mesh.point[d + k] - mesh.point[a + k];
    }
  }
  return out;
}
