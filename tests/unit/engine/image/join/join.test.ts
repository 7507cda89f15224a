/** Joining two overlapping scans of one film, taken by the witness, whose truth says where each lies. */
import { describe, expect, it } from "vitest";
import { makeLightField } from "../../../../../extension/engine/flat-field/light-field.ts";
import { relativeExposure } from "../../../../../extension/engine/flat-field/exposure.ts";
import { composeJoin } from "../../../../../extension/engine/image/join/compose.ts";
import { measureJoin } from "../../../../../extension/engine/image/join/measure.ts";
import { joinPlane } from "../../../../../extension/engine/image/join/plane.ts";
import { onFirst } from "../../../../../extension/engine/image/join/place.ts";
import { photographFilm, type Scan } from "../../../../witness/camera/camera.ts";
import { filmOf, GOOD_FLARE, halfScan, request, RIG } from "../../survey/rig.ts";
import type { SubjectName } from "../../survey/subjects/subjects.ts";

const blank = halfScan(photographFilm(request(RIG, "blank"), 90));
const field = makeLightField(blank.scan, blank.info);

/** The film lies so far left or right that about 60 % of it shows, a little turned, the second a third of a stop darker. */
function halves(subject: SubjectName, angle: number): [Scan, Scan] {
  const film = filmOf(subject, RIG.stock);
  const good = request(RIG, film);
  const [seconds, of] = good.exposure.shutter;
  const at = (x: number, y: number, tilt: number, dim: number, seed: number): Scan =>
    photographFilm(
      {
        ...good,
        setup: { ...good.setup, opening: undefined },
        placement: { centre: [x, y], width: 1.35, tilt, mirrored: false },
        exposure: { ...good.exposure, shutter: [Math.round(seconds * 1000 * dim), of * 1000] },
      },
      seed,
    );
  return [at(0.78, 0.5, 0, 1, 11), at(0.29, 0.507, angle, 0.8, 12)];
}

function part(scan: Scan) {
  const half = halfScan(scan);
  const { ratio } = relativeExposure(half.info, blank.info);
  return { scan: half.scan, light: { field, flare: GOOD_FLARE, ratio } };
}

const planeOf = ({ scan, light }: ReturnType<typeof part>) => joinPlane(scan, light);

/** Pixels of the half-size scan of a place in the picture. */
const placeIn = (scan: Scan, u: number, v: number): [number, number] => {
  const [x, y] = scan.truth.placeOf(u, v);
  return [x / 2, y / 2];
};

const SHARED = [0.4, 0.45, 0.5, 0.55, 0.6].flatMap((u) => [0.2, 0.5, 0.8].map((v) => [u, v] as const));

describe.each([
  ["portrait", 0.4],
  ["quay", -0.25],
  ["night", 0],
] as const)("%s, the second scan turned by %f°", (subject, tilt) => {
  const [left, right] = halves(subject, tilt);
  const [a, b] = [part(left), part(right)];
  const { places, residual, overlaps } = measureJoin([planeOf(a), planeOf(b)]);
  const place = places[1]!;

  it("lies within 0.3 px of the truth everywhere in the overlap", () => {
    const [x, y, degrees] = place;
    expect(overlaps[0]!.patches).toBeGreaterThanOrEqual(4);
    expect(residual).toBeLessThan(0.2);
    const off = SHARED.map(([u, v]) => {
      // Places name a pixel's middle as 0.5 in the witness and as 0 in a join.
      const [su, sv] = placeIn(right, u, v);
      const [p, q] = onFirst(su - 0.5, sv - 0.5, x, y, (degrees * Math.PI) / 180);
      const [tx, ty] = placeIn(left, u, v);
      return Math.hypot(p + 0.5 - tx, q + 0.5 - ty);
    });
    expect(Math.max(...off)).toBeLessThan(0.3);
  });

  it("becomes one scan, in one exposure, with the film's own transmittance on both sides", () => {
    const joined = composeJoin([
      { ...a, place: [0, 0, 0] },
      { ...b, place },
    ]);
    expect(joined.width).toBeGreaterThan(a.scan.width * 1.3);
    const tones: number[] = [];
    for (const u of [0.1, 0.3, 0.5, 0.7, 0.9])
      for (const v of [0.15, 0.5, 0.85]) {
        const [x, y] = placeIn(left, u, v);
        let sum = 0;
        let truth = 0;
        for (let dy = -4; dy <= 4; dy++)
          for (let dx = -4; dx <= 4; dx++) {
            const [px, py] = [Math.round(x) + dx, Math.round(y) + dy - Math.floor(Math.min(0, place[1]))];
            sum += (joined.data[(py * joined.width + px) * 3 + 1] - joined.black) * joined.scale;
            truth += left.truth.transmittanceAt((Math.round(x) + dx + 0.5) * 2, (Math.round(y) + dy + 0.5) * 2)[1];
          }
        tones.push(Math.abs(sum / truth - 1));
      }
    // Detail that the lens has spread accounts for a few.
    expect(tones.toSorted((p, q) => p - q)[Math.floor(tones.length * 0.7)]).toBeLessThan(0.03);
  });
});

describe("scans that do not belong together", () => {
  it("are told apart", () => {
    const [left] = halves("portrait", 0);
    const [, right] = halves("meadow", 0);
    const { places, apart, overlaps } = measureJoin([planeOf(part(left)), planeOf(part(right))]);
    expect([apart, overlaps, places[1]]).toEqual([[1], [], undefined]);
  });
});
