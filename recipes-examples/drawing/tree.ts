/** A tree of boxes over triangles, so that a ray need not look at all of them. */
import type { Mesh } from "./mesh.ts";

const BINS = 12;
const LEAF = 3;

/** Boxes in pairs: the children of a node lie side by side. A node with a count is a leaf of that many triangles. */
export interface Tree {
  /** Lower and upper corner of each node. */
  readonly box: Float32Array;
  /** First child, or first place in `order` of a leaf's triangles. */
  readonly child: Int32Array;
  readonly count: Int32Array;
  /** Triangles in the order of the leaves. */
  readonly order: Uint32Array;
}

/** Builds the tree top down; each cut is the cheapest of twelve along each of the longer axes of the centres. */
export function grow(mesh: Mesh): Tree {
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
