/**
 * Where pictures of one length lie along a strip, by dynamic programming over the shares of its columns: every column
 * belongs to a picture or to a gap, and pictures at the ends may be cut off.
 */
import { clamp } from "../../math/clamp.ts";

export interface Sequence {
  /** Where pictures begin, pixels, in order. */
  readonly starts: readonly number[];
  /** Steepness of each picture's two edges, 0 … 1: 1 where clear film turns into picture all along an edge. */
  readonly edges: readonly (readonly [left: number, right: number])[];
  /** Pixels of a picture that is cut off at the view's beginning and end; 0 where there is none. */
  readonly cut: readonly [before: number, after: number];
  /** Lower is better; in pixels. */
  readonly cost: number;
}

export interface SequenceOptions {
  /** Length of a picture along the strip, pixels. */
  readonly length: number;
  /** Least gap between two pictures, pixels. */
  readonly gap: number;
  /** Columns in which film is in view: the first, and the one after the last. */
  readonly view: readonly [from: number, to: number];
}

/** A gap's column may be picture by this part: dust. */
const DUSTY = 0.02;
/** Cost of a clear column in a picture, of a picture, and what each steep edge is worth, in parts of the length. */
const [CLEAR_COLUMN, PICTURE_COST, EDGE] = [0.02, 0.02, 0.06];
/** Cost of a picture that is cut off, in parts of the length. */
const CUT_COST = 0.03;
/** Columns over which an edge's step is looked for. */
const STEP = 3;
/** What outside is picture counts against an edge by this factor. */
const OUTSIDE = 4;

/** How steeply columns go from clear film to picture at every place, 0 … 1: where pictures begin, and where they end. */
export interface Edges {
  readonly begins: Float64Array;
  readonly ends: Float64Array;
}

/** Edges between columns: the one at a place lies before the column of that number. */
export function edgesOf(picture: Float64Array): Edges {
  const n = picture.length;
  const begins = new Float64Array(n + 1);
  const ends = new Float64Array(n + 1);
  const most = (from: number, to: number): number => {
    let max = 0;
    for (let i = Math.max(0, from); i <= Math.min(n - 1, to); i++) if (picture[i] > max) max = picture[i];
    return max;
  };
  for (let at = 0; at <= n; at++) {
    // A blurred edge lies within a column to either side.
    const [left, right] = [most(at - STEP - 1, at - 2), most(at + 1, at + STEP)];
    begins[at] = clamp(right - OUTSIDE * Math.max(0, left - DUSTY), 0, 1);
    ends[at] = clamp(left - OUTSIDE * Math.max(0, right - DUSTY), 0, 1);
  }
  return { begins, ends };
}

/** The cheapest sequence of pictures along the columns. */
export function sequenceOf(picture: Float64Array, edges: Edges, { length, gap, view }: SequenceOptions): Sequence {
  const [from, to] = view;
  const n = to - from;
  const inGap = new Float64Array(n + 1);
  const inPicture = new Float64Array(n + 1);
  const begins = edges.begins.subarray(from, to + 1);
  const ends = edges.ends.subarray(from, to + 1);
  for (let i = 0; i < n; i++) {
    const share = picture[from + i];
    inGap[i + 1] = inGap[i] + Math.max(0, share - DUSTY);
    inPicture[i + 1] = inPicture[i] + (share < DUSTY ? CLEAR_COLUMN : 0);
  }
  const worth = EDGE * length;
  // Least cost up to a column, with a picture ending there and with a gap reaching there; and where each came from.
  const afterPicture = new Float64Array(n + 1).fill(Infinity);
  const afterGap = new Float64Array(n + 1).fill(Infinity);
  const gapFrom = new Int32Array(n + 1).fill(-1);
  afterGap[0] = 0;
  for (let i = 1; i <= n; i++) {
    if (i < length) afterPicture[i] = inPicture[i] + CUT_COST * length - ends[i] * worth;
    else
      afterPicture[i] =
        afterGap[i - length] +
        inPicture[i] -
        inPicture[i - length] +
        PICTURE_COST * length -
        (begins[i - length] + ends[i]) * worth;
    afterGap[i] = afterGap[i - 1] + inGap[i] - inGap[i - 1];
    gapFrom[i] = gapFrom[i - 1];
    const start = i - gap;
    if (start > 0 && afterPicture[start] + inGap[i] - inGap[start] < afterGap[i]) {
      afterGap[i] = afterPicture[start] + inGap[i] - inGap[start];
      gapFrom[i] = start;
    }
  }
  // The end: a gap, a picture, or a picture that is cut off.
  let cost = Math.min(afterGap[n], afterPicture[n]);
  let at = afterPicture[n] < afterGap[n] ? n : gapFrom[n];
  let cutAfter = 0;
  for (let i = Math.max(1, n - length + 1); i < n; i++) {
    const last = afterGap[i] + inPicture[n] - inPicture[i] + CUT_COST * length - begins[i] * worth;
    if (last >= cost) continue;
    cost = last;
    cutAfter = n - i;
    at = gapFrom[i];
  }
  const starts: number[] = [];
  const steep: [number, number][] = [];
  let cutBefore = 0;
  while (at > 0) {
    const start = at - length;
    if (start < 0) {
      cutBefore = at;
      break;
    }
    starts.unshift(from + start);
    steep.unshift([begins[start], ends[at]]);
    at = gapFrom[start];
  }
  return { starts, edges: steep, cut: [cutBefore, cutAfter], cost };
}
