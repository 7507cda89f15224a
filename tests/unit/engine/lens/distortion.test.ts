/**
 * Distortion judged by the witness, whose lens draws with known terms. Definition: how much farther from the middle a
 * point is drawn, as a part of its radius (ISO 17850 calls this geometric distortion; from memory). The scale at the
 * middle has no meaning, so it is fitted before the comparison. Bar: 0.05 % all over the field.
 */
import { describe, expect, it } from "vitest";
import { measureJoin } from "../../../../extension/engine/image/join/measure.ts";
import { onFirst } from "../../../../extension/engine/image/join/place.ts";
import { joinPlane } from "../../../../extension/engine/image/join/plane.ts";
import { correctLens } from "../../../../extension/engine/lens/correct.ts";
import { distortionTerms, fitDistortion } from "../../../../extension/engine/lens/distortion.ts";
import { readEdges } from "../../../../extension/engine/lens/straight-edges.ts";
import { relativeExposure } from "../../../../extension/engine/flat-field/exposure.ts";
import { filmPlane } from "../../../../extension/engine/flat-field/film-plane.ts";
import { makeLightField } from "../../../../extension/engine/flat-field/light-field.ts";
import { photographFilm } from "../../../witness/camera/camera.ts";
import { projection } from "../../../witness/camera/project.ts";
import { GOOD_PLACEMENT } from "../../../witness/camera/setup.ts";
import { filmOf, GOOD_FLARE, halfScan, request, RIG } from "../survey/rig.ts";
import type { SubjectName } from "../survey/subjects/subjects.ts";

const BAR = 0.0005;
/** Pixels of a scan: 3 megapixels, so that a part in a thousand of the radius is more than a pixel. */
const [WIDTH, HEIGHT] = [2160, 1440];
const blank = halfScan(photographFilm({ ...request(RIG, "blank"), width: WIDTH, height: HEIGHT }, 90));
const field = makeLightField(blank.scan, blank.info);

type Terms = readonly [number, number];

function scanOf(subject: SubjectName, distortion: Terms, seed: number, placement = GOOD_PLACEMENT) {
  const plain = request(RIG, filmOf(subject, RIG.stock));
  const setup = { ...plain.setup, opening: undefined, lens: { distortion } };
  const shot = photographFilm({ ...plain, setup, placement, width: WIDTH, height: HEIGHT }, seed);
  const { scan, info } = halfScan(shot);
  return { shot, scan, light: { field, flare: GOOD_FLARE, ratio: relativeExposure(info, blank.info).ratio } };
}

/** Largest difference of two distortions over the field, as a part of the radius, at the scale at which it is least. */
function apart([a1, a2]: readonly number[], [b1, b2]: readonly number[]): number {
  const off = Array.from({ length: 20 }, (_, i) => ((i + 1) / 20) ** 2).map((r2) => r2 * (a1 - b1 + r2 * (a2 - b2)));
  return (Math.max(...off) - Math.min(...off)) / 2;
}

const ROLLS: readonly (readonly [string, readonly SubjectName[], Terms, number, number])[] = [
  ["tune: barrel", ["quay", "meadow", "portrait", "faces"], [-0.02, 0.006], 500, 0],
  ["held out: pincushion, tilted", ["market", "rain", "mist", "bracken"], [0.012, 0], 8600, 0.7],
  ["held out: slight, both terms", ["lace", "regatta", "shingle", "gulls"], [0.004, -0.002], 8700, -0.4],
  ["held out: none", ["pebbles", "night", "sundown", "workbench"], [0, 0], 8800, 0.2],
];

describe.each(ROLLS)("%s", (_, subjects, distortion, seed, tilt) => {
  const placement = { ...GOOD_PLACEMENT, tilt };
  const scans = subjects.map((subject, i) => scanOf(subject, distortion, seed + i, placement));
  const { area } = projection(filmOf(subjects[0], RIG.stock), placement, WIDTH, HEIGHT);
  const edges = () => scans.map(({ scan, light }) => readEdges(filmPlane(scan, light), area, "colour-negative"));
  const fit = fitDistortion(edges())!;

  it("is known to 0.05 % all over the field, and its error is told", () => {
    expect(apart(distortionTerms(fit), distortion)).toBeLessThanOrEqual(BAR);
    expect(fit.error).toBeLessThan(BAR);
    expect(fit.edges).toBe(16);
  });

  it("leaves straight edges once it is corrected", () => {
    for (const { scan } of scans) correctLens(scan, { distortion: distortionTerms(fit) });
    const left = fitDistortion(edges())!;
    expect(apart([left.k1, left.k2], [0, 0])).toBeLessThanOrEqual(BAR);
  });
});

describe("edges that cannot be told", () => {
  it("gives nothing where no rebate is in view", () => {
    const { scan, light } = scanOf("market", [0.01, 0], 31, { ...GOOD_PLACEMENT, width: 1.3 });
    const { area } = projection(filmOf("market", RIG.stock), { ...GOOD_PLACEMENT, width: 1.3 }, WIDTH, HEIGHT);
    expect(fitDistortion([readEdges(filmPlane(scan, light), area, "colour-negative")])).toBeUndefined();
  });

  it("gives nothing for no scans", () => expect(fitDistortion([])).toBeUndefined());
});

describe("joins", () => {
  it("agree all over the overlap once distortion is taken out", () => {
    const distortion: Terms = [0.012, 0];
    const placed = (x: number) => ({ ...GOOD_PLACEMENT, centre: [x, 0.5] as const, width: 1.35 });
    const pair = () =>
      [scanOf("market", distortion, 41, placed(0.78)), scanOf("market", distortion, 42, placed(0.29))] as const;
    const joined = (scans: ReturnType<typeof pair>) =>
      measureJoin(scans.map(({ scan, light }) => joinPlane(scan, light)));
    const offsets = ([a, b]: ReturnType<typeof pair>): number => {
      const place = joined([a, b]).places[1]!;
      const away = [0.42, 0.5, 0.58].flatMap((u) =>
        [0.1, 0.5, 0.9].map((v) => {
          const [p, q] = [a.shot, b.shot].map(({ truth }) => truth.placeOf(u, v).map((n) => n / 2 - 0.5));
          const [x, y] = onFirst(q[0], q[1], place[0], place[1], (place[2] * Math.PI) / 180);
          return Math.hypot(x - p[0], y - p[1]);
        }),
      );
      return 2 * Math.max(...away);
    };
    const photographed = joined(pair()).residual;
    const corrected = pair();
    for (const { scan } of corrected) correctLens(scan, { distortion });
    expect(joined(corrected).residual).toBeLessThan(0.3 * photographed);
    // Pixels of the full scan.
    expect(offsets(corrected)).toBeLessThan(0.6);
  });
});
