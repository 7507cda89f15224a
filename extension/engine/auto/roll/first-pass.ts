/** The first look at a scan, before it is known which scans of the roll show the bare light. */
import { findBase } from "../../detect/base.ts";
import { downsample } from "../../detect/downsampled-scan.ts";
import { isolatedObject } from "../../detect/isolated-object.ts";
import { cellsOf } from "../../detect/uniform-tiles.ts";
import type { LinearScan, Rgb, ScanInfo } from "../../types.ts";
import { sampleOf } from "../balance.ts";

/** What can be told of a scan before it is known which of them shows the bare light. */
export interface FirstPass {
  readonly info: ScanInfo;
  /** Part of the scan that is evenly dense, 0 … 1: a blank or a leader is so nearly everywhere. */
  readonly even: number;
  /** Side of the largest thing on even film, in parts of the longer side; see `isolatedObject`. */
  readonly largestObject: number;
  /** Signal in the middle, median per channel; 1 is the sensor's limit. */
  readonly middle: Rgb;
  /** Mean signal of the blocks of the scan's middle: what tells the kind of film. */
  readonly blocks: Float32Array;
  /** Densest-known thing that may be base: density of the thinnest film, on the signal itself. */
  readonly thinnest?: Rgb;
}

/** A scan with what the first pass saw on it. */
export interface FirstPassScan extends FirstPass {
  readonly name: string;
}

/** Wide enough for this. */
const WIDTH = 600;
/** Where nearly every scan shows the picture and neither margin nor holder. */
const MIDDLE = { left: 0.2, top: 0.2, width: 0.6, height: 0.6, tilt: 0 };

/** @param scan at half size or full: it is looked at small */
export function firstPassOf(scan: LinearScan, info: ScanInfo): FirstPass {
  const downsampled = downsample(scan, { ratio: 1 }, WIDTH);
  const cells = cellsOf(downsampled);
  const { flat } = cells;
  const even = flat.reduce((a, b) => a + b, 0) / flat.length;
  const { width, height, t } = downsampled;
  const values: [number[], number[], number[]] = [[], [], []];
  for (let y = Math.floor(0.35 * height); y < 0.65 * height; y++)
    for (let x = Math.floor(0.35 * width); x < 0.65 * width; x++)
      for (let c = 0; c < 3; c++) values[c].push(t[(y * width + x) * 3 + c]);
  const middle = values.map((v) => Float64Array.from(v).sort()[v.length >> 1]);
  const thinnest = findBase(downsampled)?.density;
  return {
    info,
    even,
    largestObject: isolatedObject(cells),
    middle: [middle[0], middle[1], middle[2]],
    blocks: sampleOf(downsampled, MIDDLE),
    ...(thinnest ? { thinnest } : {}),
  };
}
