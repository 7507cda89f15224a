/** Readings of scans as the survey measures them: a good one, to be changed in one thing at a time. */
import type {
  BlankReading,
  BlurCell,
  BlurReading,
  ScanReading,
  Speck,
} from "../../../../extension/engine/survey/types.ts";
import type { FoundFrame } from "../../../../extension/engine/detect/frame.ts";
import type { DensityMap } from "../../../../extension/engine/detect/overlap.ts";
import type { JudgedScan, StandRoll } from "../../../../extension/engine/verdict/types.ts";
import type { ScanInfo } from "../../../../extension/engine/types.ts";

export const INFO: ScanInfo = {
  source: "raw",
  width: 6000,
  height: 4000,
  bits: 14,
  make: "Testbench",
  model: "Copy One",
  lens: "Macro",
  aperture: 8,
  iso: 100,
  shutter: 1 / 60,
  mosaic: "bayer",
};

/** The picture's rectangle in every scan. */
export const AREA = { left: 0.05, top: 0.06, width: 0.9, height: 0.88, tilt: 0 };

/** Blur of one sigma in pixels, the same in all directions. */
export const round = (sigma: number): BlurReading => ({ xx: sigma ** 2, xy: 0, yy: sigma ** 2 });

/** 25 cells with the blur of each, by column and row. */
export const cellsOf = (blur: (column: number, row: number) => BlurReading | undefined): BlurCell[] =>
  Array.from({ length: 25 }, (_, i) => {
    const [q, r] = [i % 5, Math.floor(i / 5)];
    const own = blur(q, r);
    const place = { x: AREA.left + (AREA.width * (q + 0.5)) / 5, y: AREA.top + (AREA.height * (r + 0.5)) / 5 };
    return { ...place, ...(own ? { blur: own } : {}) };
  });

/** Sharp all over: the lens resolves more than half of what the sensor can hold. */
export const SHARP = 0.7;

const READING: ScanReading = {
  name: "A0010.dng",
  frame: "10",
  info: INFO,
  area: AREA,
  brightest: [0.8, 0.85, 0.7],
  clipped: [0, 0, 0],
  cells: cellsOf(() => round(SHARP)),
  rebate: [],
  edges: {},
  specks: [],
};

const FOUND: FoundFrame = {
  area: AREA,
  confidence: 1,
  sides: { left: "edge", right: "edge", top: "edge", bottom: "edge" },
  support: { left: 1, right: 1, top: 1, bottom: 1 },
};

/** A map of densities that looks like no other seed's. */
export function mapOf(seed: number): DensityMap {
  let state = seed * 2654435761 || 1;
  const density = Float32Array.from({ length: 96 * 64 }, () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return ((state >>> 8) & 0xffff) / 65536;
  });
  return { width: 96, height: 64, density };
}

export interface Changes extends Partial<Omit<JudgedScan, "reading" | "found">> {
  readonly reading?: Partial<ScanReading>;
  readonly found?: Partial<FoundFrame> | null;
}

/** A good scan of frame 10, but for what is given. */
export function scanOf({ reading, found, ...own }: Changes = {}): JudgedScan {
  const { name = "A0010.dng", frame = "10" } = own;
  return {
    name,
    frame,
    map: mapOf(Number(frame.replace(/A$/, "")) || 1),
    numbers: [],
    ...own,
    reading: { ...READING, name, frame, ...reading },
    ...(found === null ? {} : { found: { ...FOUND, ...found } }),
  };
}

/** Good scans of the frames before. */
export const before = (count: number, changes: (k: number) => Changes = () => ({})): JudgedScan[] =>
  Array.from({ length: count }, (_, k) => {
    const frame = String(10 - count + k).padStart(2, "0");
    return scanOf({ name: `A00${frame}.dng`, frame, ...changes(k) });
  });

export const rollOf = (changes: Partial<StandRoll> = {}): StandRoll => ({
  film: "colour-negative",
  flare: [0, 0, 0],
  before: [],
  retakes: [],
  ...changes,
});

/** So many specks of dust, each at a place of its own; `seed` moves them all. */
export const specks = (count: number, seed = 0): Speck[] =>
  Array.from({ length: count }, (_, k) => ({
    x: 0.1 + 0.8 * ((0.6180339 * (k + 1) + 0.137 * seed) % 1),
    y: 0.1 + 0.45 * ((0.7548776 * (k + 1) + 0.291 * seed) % 1),
    radius: 0.001,
    elongation: 1,
    opacity: 0.6,
    logOdds: 3,
    spots: [],
  }));

export const BLANK: BlankReading = {
  name: "LIGHT.dng",
  info: INFO,
  unevenness: 8,
  darkestAt: [0, 0, 0.1, 0.1],
  colourSpan: 0.5,
  colourAt: [0, 0, 0.1, 0.1],
  banding: 0.1,
  bandingAlong: "rows",
  clipped: [0, 0, 0],
  sensorDust: [],
  noise: { variance: 1e-5, iso: 100, shape: new Float32Array(8).fill(1) },
};
