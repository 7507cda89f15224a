/**
 * Strips of many kinds. Three sets apart, by the seeds of pictures, grain and lie of the film: `TRAIN` was looked at while
 * the finder was written, on `TUNE` its limits were set, `HELD_OUT` was drawn after the last limit was set.
 */
import { CAMERA_B, WARM_PANEL } from "../../../../witness/camera/cameras.ts";
import type { Placement, Setup } from "../../../../witness/camera/setup.ts";
import {
  FORMAT_135,
  FORMAT_135_HALF,
  FORMAT_135_PLAIN,
  FORMAT_645,
  FORMAT_66,
  type FilmFormat,
} from "../../../../witness/film/format.ts";
import { COALFISH_125, NORTHLIGHT_400, SKERRY_100, type Stock } from "../../../../witness/film/stocks.ts";
import { developStrip, sheetOf, type Strip, type StripPicture } from "../../../../witness/film/strip.ts";
import { random } from "../../../../witness/random.ts";
import type { Scene } from "../../../../witness/scenes/scene.ts";
import { subject, type SubjectName } from "../../../../witness/scenes/subjects.ts";
import { STAND, type Stand } from "../scans.ts";

export interface StripCase {
  readonly name: string;
  readonly seed: number;
  readonly strip: (seed: number) => Strip;
  readonly stand?: Partial<Stand>;
  readonly placement: Partial<Placement> & { readonly width: number };
  readonly ratio?: number;
  /** How many pictures of the strip are whole in view: all where absent; and the first of them. */
  readonly whole?: readonly [first: number, count: number];
  /** Pictures that are so dark that sides of theirs cannot be seen, by their index. */
  readonly dark?: readonly number[];
}

const OPEN: Setup = { ...STAND.setup, opening: undefined };
const SIZE = { width: 2400, height: 1600 };
const OTHER = { camera: CAMERA_B, light: WARM_PANEL };

const LIGHT: readonly SubjectName[] = ["portrait", "street", "meadow", "table", "forest", "snow"];

interface Kind {
  readonly format: FilmFormat;
  readonly count: number;
  readonly gap: number;
  readonly fine: number;
  readonly stock?: Stock;
  readonly ends?: readonly [number, number];
  readonly first?: number;
  readonly halves?: boolean;
  /** Pictures by night, two stops under. */
  readonly nights?: readonly number[];
  /** Pictures that fade to black towards the gap on their left. */
  readonly weak?: readonly number[];
  /** Gaps differ by up to this, mm: each picture brings half of a gap of its own. */
  readonly uneven?: number;
}

const stripOf =
  (kind: Kind) =>
  (seed: number): Strip => {
    const { format, count, gap, fine, stock = NORTHLIGHT_400, nights = [], weak = [], uneven = 0 } = kind;
    const draw = random(seed, "strip");
    const [width, height] = format.picture.map((mm) => Math.round(mm * fine));
    const pictures = Array.from({ length: count }, (_, k): StripPicture => {
      const isNight = nights.includes(k);
      const name = isNight ? "night" : LIGHT[draw.bits() % LIGHT.length];
      const scene = subject(name, width, height, seed + k);
      const beside = Math.round((gap / 2 + draw.between(-uneven / 2, uneven / 2)) * fine) / fine;
      return {
        scene: weak.includes(k) ? fadedLeft(scene) : scene,
        exposure: (isNight ? -1.5 : 0) + draw.between(-1, 0.8),
        ...(uneven > 0 ? { beside } : {}),
      };
    });
    const { first, ends, halves } = kind;
    return developStrip(
      pictures,
      stock,
      {
        format,
        gap,
        pixelsPerMm: fine,
        ...(first === undefined ? {} : { first }),
        ...(ends ? { ends } : {}),
        ...(halves ? { halves } : {}),
      },
      seed,
    );
  };

/** Light falls to a hundredth towards the left border over a twelfth of the width. */
function fadedLeft(scene: Scene): Scene {
  const { width, data } = scene;
  const faded = data.map((v, i) => {
    const u = (((i / 3) | 0) % width) / width;
    return v * Math.min(1, 0.01 + u * 12);
  });
  return { ...scene, data: faded };
}

const six: Kind = { format: FORMAT_135, count: 6, gap: 2, fine: 10, first: 12, ends: [5.5, 5.5] };
const half: Kind = { format: FORMAT_135_HALF, count: 2, gap: 1, fine: 24, first: 7, halves: true };
const rollFilm: Kind = { format: FORMAT_66, count: 3, gap: 5, fine: 9, first: 4, uneven: 2, ends: [9, 9] };
const plain: Kind = { format: FORMAT_135_PLAIN, count: 4, gap: 2, fine: 12, first: 3, stock: SKERRY_100 };

/** Seeds differ by the set; what the strips are does not. */
const casesFrom = (seed: number): StripCase[] => {
  const draw = random(seed, "placement");
  const lie = (): Pick<Placement, "tilt" | "centre"> => ({
    tilt: draw.between(-1.5, 1.5),
    centre: [draw.between(0.49, 0.51), draw.between(0.42, 0.58)],
  });
  const cases: StripCase[] = [
    { name: "six of 135", seed, strip: stripOf(six), placement: { width: 0.9, ...lie() } },
    {
      name: "six of 135, two by night",
      seed: seed + 10,
      strip: stripOf({ ...six, nights: [1, 4] }),
      placement: { width: 0.9, ...lie() },
      dark: [1, 4],
    },
    {
      name: "six of 135 upright, one fading towards a gap",
      seed: seed + 20,
      strip: stripOf({ ...six, stock: COALFISH_125, weak: [2] }),
      stand: { size: { width: 1600, height: 2400 } },
      placement: { width: 1.3, ...lie(), centre: [draw.between(0.42, 0.58), 0.5] as const },
    },
    {
      name: "four of unperforated 135 in a holder, the strip going on to both sides",
      seed: seed + 30,
      strip: stripOf({ ...plain, count: 6 }),
      stand: { ...OTHER, setup: STAND.setup },
      placement: { width: 1.32, ...lie() },
      whole: [1, 4],
    },
    {
      name: "a pair of half frames",
      seed: seed + 40,
      strip: stripOf(half),
      placement: { width: 0.86, tilt: draw.between(-1, 1), centre: [0.5, 0.5] },
    },
    {
      name: "a pair of half frames between two that are cut off, in a holder",
      seed: seed + 50,
      strip: stripOf({ ...half, count: 4, fine: 20 }),
      stand: { setup: STAND.setup },
      placement: { width: 1.74, tilt: draw.between(-1, 1), centre: [0.5, 0.5] },
      whole: [1, 2],
    },
    {
      name: "three of 6×6 with uneven gaps",
      seed: seed + 60,
      strip: stripOf({ ...rollFilm, stock: SKERRY_100 }),
      stand: OTHER,
      placement: { width: 0.9, ...lie() },
    },
    {
      name: "a sheet of 6×6: four rows of three",
      seed: seed + 70,
      strip: (s) =>
        sheetOf(
          [0, 1, 2, 3].map((k) => stripOf({ ...rollFilm, fine: 7 })(s + 11 * k)),
          3,
        ),
      stand: { size: { width: 1800, height: 2400 } },
      placement: { width: 0.8, tilt: draw.between(-1, 1), centre: [0.5, 0.5] },
    },
    {
      name: "two rows of 6×4.5, black-and-white",
      seed: seed + 80,
      strip: (s) =>
        sheetOf(
          [0, 1].map((k) => stripOf({ ...rollFilm, format: FORMAT_645, count: 4, stock: COALFISH_125 })(s + 11 * k)),
          4,
        ),
      placement: { width: 0.86, tilt: draw.between(-1, 1), centre: [0.5, 0.5] },
    },
  ];
  return cases.map((one) => ({ ...one, stand: { ...STAND, size: SIZE, setup: OPEN, ...one.stand } }));
};

export const TRAIN = casesFrom(1000);
export const TUNE = casesFrom(3000);
export const HELD_OUT = casesFrom(7000);
