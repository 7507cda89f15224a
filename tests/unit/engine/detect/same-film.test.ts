/**
 * Grain tells one piece of film from another, judged by the witness: the same film photographed twice, moved, blurred and
 * shaken, and two films of the same subject, exposed alike and lying at the same place to the pixel.
 */
import { describe, expect, it } from "vitest";
import { downsample } from "../../../../extension/engine/detect/downsampled-scan.ts";
import { densityMapOf } from "../../../../extension/engine/detect/overlap.ts";
import { filmAgreement, grainPrint } from "../../../../extension/engine/detect/same-film.ts";
import { filmPlane } from "../../../../extension/engine/flat-field/film-plane.ts";
import { makeLightField } from "../../../../extension/engine/flat-field/light-field.ts";
import { samePicture } from "../../../../extension/engine/verdict/same-picture.ts";
import { photographFilm, type ScanRequest } from "../../../witness/camera/camera.ts";
import { develop, type DevelopedFilm } from "../../../witness/film/film.ts";
import { GOOD_PLACEMENT } from "../../../witness/camera/setup.ts";
import { halfScan, HEIGHT, request, RIG, SMALL_FORMAT, WIDTH } from "../survey/rig.ts";
import { SUBJECTS, type SubjectName } from "../survey/subjects/subjects.ts";

const blank = halfScan(photographFilm(request(RIG, "blank"), 90));
const light = { field: makeLightField(blank.scan, blank.info), ratio: 1, flare: [0.002, 0.002, 0.0025] as const };

function filmOf(subject: SubjectName, seed: number): DevelopedFilm {
  const options = { format: SMALL_FORMAT, frame: "12", margin: [1, 1] as [number, number], pixelsPerMm: 110 };
  return develop(SUBJECTS[subject](990, 660), RIG.stock, options, seed);
}

function printOf(film: DevelopedFilm, seed: number, change: (r: ScanRequest) => ScanRequest = (r) => r) {
  const taken = photographFilm(change(request(RIG, film)), seed);
  const { scan } = halfScan(taken);
  const grain = grainPrint(filmPlane(scan, light), taken.truth.area!)!;
  return { grain, map: densityMapOf(downsample(scan, light)) };
}

const blurred = (r: ScanRequest): ScanRequest => ({
  ...r,
  setup: { ...r.setup, blur: { ...r.setup.blur, everywhere: 2.6 } },
});
const shaken = (r: ScanRequest): ScanRequest => ({ ...r, setup: { ...r.setup, shake: { length: 7, angle: 25 } } });
const moved = (r: ScanRequest): ScanRequest => {
  const [x, y] = GOOD_PLACEMENT.centre;
  const centre = [x + 10 / WIDTH, y - 7 / HEIGHT] as const;
  return { ...r, placement: { ...GOOD_PLACEMENT, centre, tilt: GOOD_PLACEMENT.tilt + 0.3 } };
};

describe.each(["portrait", "night", "faces"] as const)("two scans of %s", (subject) => {
  const film = filmOf(subject, 7);
  const first = printOf(film, 1);

  it.each([
    ["again", undefined],
    ["moved and turned in the holder", moved],
    ["out of focus", blurred],
    ["shaken", shaken],
  ])("of one piece of film: %s", (_, change) => {
    const second = printOf(film, 2, change);
    expect(filmAgreement(first.grain, second.grain)!.agreement).toBeGreaterThan(0.13);
    expect(samePicture(first, second)).toBe("same");
  });

  it("of two pieces of film that look alike", () => {
    const other = printOf(filmOf(subject, 8), 3);
    expect(filmAgreement(first.grain, other.grain)!.agreement).toBeLessThan(0.1);
    expect(samePicture(first, other)).toBe("other");
  });
});

describe("prints of scans of different sizes", () => {
  it("cannot be compared", () => {
    const { grain } = printOf(filmOf("portrait", 7), 1);
    expect(filmAgreement(grain, { ...grain, width: grain.width + 2 })).toBeUndefined();
  });
});
