/** Finds what a ray meets first: a tree of boxes over triangles, built by the surface-area rule, walked near side first. */
import type { Mesh } from "./mesh.ts";

const BINS = 12;
const LEAF = 3;

interface Tree {
  readonly box: Float32Array;
  readonly child: Int32Array;
  readonly count: Int32Array;
  readonly order: Uint32Array;
}

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

/** Builds the tree top down; each cut is the cheapest of twelve along each of the longer axes of the centres. */
function grow(mesh: Mesh): Tree {
  const n = mesh.corner.length / 3;
  if (n === 0)
    return { box: new Float32Array(0), child: new Int32Array(0), count: new Int32Array(0), order: new Uint32Array(0) };
  const low = new Float32Array(n * 3);
  const high = new Float32Array(n * 3);
  const mid = new Float32Array(n * 3);
  const order = new Uint32Array(n);
  for (let i = 0; i < n; i++) {
    order[i] = i;
    for (let k = 0; k < 3; k++) {
      const a = mesh.point[mesh.corner[i * 3] * 3 + k];
      const b = mesh.point[mesh.corner[i * 3 + 1] * 3 + k];
      const c = mesh.point[mesh.corner[i * 3 + 2] * 3 + k];
      low[i * 3 + k] = Math.min(a, b, c);
      high[i * 3 + k] = Math.max(a, b, c);
      mid[i * 3 + k] = (low[i * 3 + k] + high[i * 3 + k]) / 2;
    }
  }
  const box = new Float32Array(n * 12);
  const child = new Int32Array(n * 2);
  const count = new Int32Array(n * 2);
  let nodes = 1;
  const binCount = new Int32Array(BINS);
  const binBox = new Float64Array(BINS * 6);
  const leftArea = new Float64Array(BINS);
  const work: [number, number, number][] = [[0, 0, n]];
  const b = new Float64Array(6);
  const cb = new Float64Array(6);
  const grown = new Float64Array(6);
  while (work.length > 0) {
    const [node, from, to] = work.pop() as [number, number, number];
    b.fill(Infinity, 0, 3).fill(-Infinity, 3, 6);
    cb.fill(Infinity, 0, 3).fill(-Infinity, 3, 6);
    for (let i = from; i < to; i++) {
      const o = order[i] * 3;
      for (let k = 0; k < 3; k++) {
        if (low[o + k] < b[k]) b[k] = low[o + k];
        if (high[o + k] > b[k + 3]) b[k + 3] = high[o + k];
        if (mid[o + k] < cb[k]) cb[k] = mid[o + k];
        if (mid[o + k] > cb[k + 3]) cb[k + 3] = mid[o + k];
      }
    }
    // A hair of room, so that flat boxes are never missed by rounding.
    for (let k = 0; k < 3; k++) {
      const room = 1e-5 + 1e-6 * Math.max(Math.abs(b[k]), Math.abs(b[k + 3]));
      box[node * 6 + k] = b[k] - room;
      box[node * 6 + k + 3] = b[k + 3] + room;
    }
    const size = [cb[3] - cb[0], cb[4] - cb[1], cb[5] - cb[2]];
    const widest = Math.max(size[0], size[1], size[2]);
    if (to - from <= LEAF || widest < 1e-9) {
      child[node] = from;
      count[node] = to - from;
      continue;
    }
    let cut = -1;
    let axis = 0;
    let least = Infinity;
    for (let k = 0; k < 3; k++) {
      // Small knots of triangles are cut along their longest side only: the gain of the rest is not worth the time.
      if (size[k] < (to - from < 20 ? 1 : 0.2) * widest) continue;
      const k0 = (BINS * 0.99999) / size[k];
      binCount.fill(0);
      for (let i = 0; i < BINS; i++) {
        binBox.fill(Infinity, i * 6, i * 6 + 3);
        binBox.fill(-Infinity, i * 6 + 3, i * 6 + 6);
      }
      for (let i = from; i < to; i++) {
        const o = order[i] * 3;
        const bin = Math.floor((mid[o + k] - cb[k]) * k0);
        binCount[bin]++;
        stretch(binBox, bin * 6, low, high, o);
      }
      grown.fill(Infinity, 0, 3).fill(-Infinity, 3, 6);
      let seen = 0;
      for (let i = 0; i < BINS - 1; i++) {
        join(grown, binBox, i * 6);
        seen += binCount[i];
        leftArea[i] = area(grown) * seen;
      }
      grown.fill(Infinity, 0, 3).fill(-Infinity, 3, 6);
      seen = 0;
      for (let i = BINS - 1; i > 0; i--) {
        join(grown, binBox, i * 6);
        seen += binCount[i];
        const cost = leftArea[i - 1] + area(grown) * seen;
        if (seen > 0 && seen < to - from && cost < least) {
          least = cost;
          cut = i;
          axis = k;
        }
      }
    }
    const k0 = (BINS * 0.99999) / size[axis];
    let m = from;
    if (cut > 0)
      for (let i = from; i < to; i++) {
        const t = order[i];
        if (Math.floor((mid[t * 3 + axis] - cb[axis]) * k0) < cut) {
          order[i] = order[m];
          order[m++] = t;
        }
      }
    if (m === from || m === to) m = (from + to) >> 1;
    child[node] = nodes;
    count[node] = 0;
    work.push([nodes + 1, m, to], [nodes, from, m]);
    nodes += 2;
  }
  return { box: box.slice(0, nodes * 6), child: child.slice(0, nodes), count: count.slice(0, nodes), order };
}

function stretch(box: Float64Array, at: number, low: Float32Array, high: Float32Array, o: number): void {
  for (let k = 0; k < 3; k++) {
    if (low[o + k] < box[at + k]) box[at + k] = low[o + k];
    if (high[o + k] > box[at + k + 3]) box[at + k + 3] = high[o + k];
  }
}

function join(box: Float64Array, other: Float64Array, at: number): void {
  for (let k = 0; k < 3; k++) {
    if (other[at + k] < box[k]) box[k] = other[at + k];
    if (other[at + k + 3] > box[k + 3]) box[k + 3] = other[at + k + 3];
  }
}

function area(b: Float64Array): number {
  const x = b[3] - b[0];
  const y = b[4] - b[1];
  const z = b[5] - b[2];
  return x < 0 ? 0 : x * y + y * z + z * x;
}
