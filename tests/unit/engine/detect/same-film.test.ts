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
import type { LightSetup } from "../../../../extension/engine/flat-field/transmittance.ts";
import { samePicture } from "../../../../extension/engine/verdict/same-picture.ts";
import { photographFilm, type ScanRequest } from "../../../witness/camera/camera.ts";
import { develop, type DevelopedFilm } from "../../../witness/film/film.ts";
import { CAMERA_B, WARM_PANEL } from "../../../witness/camera/cameras.ts";
import { SKERRY_100 } from "../../../witness/film/stocks.ts";
import { GOOD_PLACEMENT } from "../../../witness/camera/setup.ts";
import { halfScan, HEIGHT, request, type Rig, RIG, SMALL_FORMAT, WIDTH } from "../survey/rig.ts";
import { SUBJECTS, type SubjectName } from "../survey/subjects/subjects.ts";

function filmOf(subject: SubjectName, seed: number, { stock }: Rig = RIG): DevelopedFilm {
  const options = { format: SMALL_FORMAT, frame: "12", margin: [1, 1] as [number, number], pixelsPerMm: 110 };
  return develop(SUBJECTS[subject](990, 660), stock, options, seed);
}

const lights = new Map<Rig, LightSetup>();

function lightOf(rig: Rig): LightSetup {
  const known = lights.get(rig);
  if (known) return known;
  const blank = halfScan(photographFilm(request(rig, "blank"), 90));
  const light = { field: makeLightField(blank.scan, blank.info), ratio: 1, flare: [0.002, 0.002, 0.0025] as const };
  lights.set(rig, light);
  return light;
}

function printOf(
  film: DevelopedFilm,
  seed: number,
  change: (r: ScanRequest) => ScanRequest = (r) => r,
  rig: Rig = RIG,
) {
  const light = lightOf(rig);
  const taken = photographFilm(change(request(rig, film)), seed);
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

describe("fine-grained film seen by another camera", () => {
  const rig = { camera: CAMERA_B, light: WARM_PANEL, stock: SKERRY_100 };
  const movedAndBlurred = (r: ScanRequest): ScanRequest => blurred(moved(r));

  it.each(["portrait", "faces"] as const)("two scans of %s, the second moved and out of focus", (subject) => {
    const film = filmOf(subject, 7, rig);
    const first = printOf(film, 1, undefined, rig);
    expect(samePicture(first, printOf(film, 2, moved, rig))).toBe("same");
    // Where blur leaves too little grain to decide, they look alike: never a second frame without a word.
    expect(samePicture(first, printOf(film, 4, movedAndBlurred, rig))).not.toBe("other");
    expect(samePicture(first, printOf(filmOf(subject, 8, rig), 3, moved, rig))).toBe("other");
  });
});

describe("scans that are too small to show grain", () => {
  const small = (r: ScanRequest): ScanRequest => ({ ...r, width: 520, height: 346 });

  it.each(["portrait", "faces"] as const)("look alike and are never another picture: %s", (subject) => {
    const film = filmOf(subject, 7);
    const again = printOf(film, 2, (r) =>
      small({ ...r, placement: { ...GOOD_PLACEMENT, tilt: GOOD_PLACEMENT.tilt + 0.2 } }),
    );
    expect(samePicture(printOf(film, 1, small), again)).not.toBe("other");
  });
});

describe("prints of scans of different sizes", () => {
  it("cannot be compared", () => {
    const { grain } = printOf(filmOf("portrait", 7), 1);
    expect(filmAgreement(grain, { ...grain, width: grain.width + 2 })).toBeUndefined();
  });
});
