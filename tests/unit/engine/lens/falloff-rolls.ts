/** Rolls of the witness under uneven light, without a blank, and how far a falloff is from the true one. */
import { falloffAt } from "../../../../extension/engine/flat-field/falloff.ts";
import { readBase } from "../../../../extension/engine/flat-field/densitometer.ts";
import { filmPlane } from "../../../../extension/engine/flat-field/film-plane.ts";
import { readBaseCells } from "../../../../extension/engine/lens/base-cells.ts";
import { type FalloffFit, fitFalloff } from "../../../../extension/engine/lens/fit-falloff.ts";
import type { Falloff } from "../../../../extension/engine/types.ts";
import { photographFilm } from "../../../witness/camera/camera.ts";
import { falloffAt as lightAt } from "../../../witness/camera/illuminate.ts";
import { projection } from "../../../witness/camera/project.ts";
import { GOOD_PLACEMENT, GOOD_SETUP, type Falloff as TrueFalloff } from "../../../witness/camera/setup.ts";
import { filmOf, halfScan, request, RIG, type Rig } from "../survey/rig.ts";
import type { SubjectName } from "../survey/subjects/subjects.ts";

export const EVEN: TrueFalloff = {
  corners: 0,
  middle: [0.5, 0.5],
  slope: [0, 0],
  tint: [0, 0, 0],
  twoColours: 0,
  banding: { swing: 0, period: 40 },
};

export interface FalloffRoll {
  readonly name: string;
  readonly subjects: readonly SubjectName[];
  readonly falloff: TrueFalloff;
  readonly seed: number;
  /** Width of the picture in parts of the scan's: what is left is rebate. */
  readonly wide: number;
  readonly rig?: Rig;
}

/**
 * The first roll was used for tuning, and with its seeds four more lights: even, corners of 0.35, a slope of 0.15, a tint.
 * The held-out rolls have other seeds and other lights, of the same kinds.
 */
export const FALLOFF_ROLLS: readonly FalloffRoll[] = [
  { name: "tune", subjects: ["quay", "meadow", "night"], falloff: GOOD_SETUP.falloff, seed: 300, wide: 0.88 },
  {
    name: "held out: dark corners, off the middle",
    subjects: ["market", "faces", "fair"],
    falloff: { ...EVEN, corners: 0.32, middle: [0.45, 0.53], slope: [0.03, -0.05] },
    seed: 7300,
    wide: 0.86,
  },
  {
    name: "held out: one side darker, of two colours",
    subjects: ["lace", "rain", "pebbles"],
    falloff: { ...EVEN, slope: [-0.16, 0.06], tint: [0.015, 0, -0.02] },
    seed: 7400,
    wide: 0.88,
  },
  {
    name: "held out: bright corners",
    subjects: ["gulls", "mist", "regatta"],
    falloff: { ...EVEN, corners: -0.14, middle: [0.52, 0.5] },
    seed: 7500,
    wide: 0.87,
  },
  { name: "held out: none", subjects: ["bracken", "sundown", "workbench"], falloff: EVEN, seed: 7600, wide: 0.88 },
];

const [WIDTH, HEIGHT] = [1620, 1080];

/** Scans of a roll, decoded at half size, the picture's area on each, and the base as read off its upper rebate. */
export function falloffScans({ subjects, falloff, seed, wide, rig = RIG }: FalloffRoll) {
  const placement = { ...GOOD_PLACEMENT, width: wide };
  const scans = subjects.map((subject, i) => {
    const plain = request(rig, filmOf(subject, rig.stock));
    const setup = { ...plain.setup, falloff };
    return halfScan(photographFilm({ ...plain, placement, setup, width: WIDTH, height: HEIGHT }, seed + i));
  });
  const { area } = projection(filmOf(subjects[0], rig.stock), placement, WIDTH, HEIGHT);
  const read = [0.3, 0.5 * area.top + 0.01, 0.4, 0.3 * area.top] as const;
  const { density } = readBase(scans[0].scan, read, { ratio: 1 });
  return { scans, area, base: density };
}

export function measuredFalloff(roll: FalloffRoll): FalloffFit | undefined {
  const { scans, area, base } = falloffScans(roll);
  const cells = scans.map(({ scan }) => readBaseCells(filmPlane(scan, { ratio: 1 }), [area], base));
  return fitFalloff(cells, WIDTH / HEIGHT);
}

/** Largest error all over the scan, each against its own mean there, EV. */
export function falloffError(measured: Falloff, truth: TrueFalloff): number {
  const unit = Math.hypot(WIDTH, HEIGHT) / 2;
  const steps = Array.from({ length: 20 }, (_, i) => (i + 0.5) / 20);
  const off = steps.flatMap((v) =>
    steps.map(
      (u) =>
        falloffAt(measured, ((u - 0.5) * WIDTH) / unit, ((v - 0.5) * HEIGHT) / unit) -
        Math.log2(lightAt(truth, 1, u, v)),
    ),
  );
  const mean = off.reduce((a, b) => a + b, 0) / off.length;
  return Math.max(...off.map((v) => Math.abs(v - mean)));
}
