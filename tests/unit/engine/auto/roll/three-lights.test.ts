import { describe, expect, it } from "vitest";
import { type FirstPassScan, firstPassOf } from "../../../../../extension/engine/auto/roll/first-pass.ts";
import { threeLights } from "../../../../../extension/engine/auto/roll/three-lights.ts";
import { photographFilm } from "../../../../witness/camera/camera.ts";
import { CAMERA_A, CAMERA_B, PANEL } from "../../../../witness/camera/cameras.ts";
import { GOOD_PLACEMENT, GOOD_SETUP, metered } from "../../../../witness/camera/setup.ts";
import { photographThree } from "../../../../witness/camera/three-lights.ts";
import { develop, type DevelopedFilm } from "../../../../witness/film/film.ts";
import { FORMAT_135 } from "../../../../witness/film/format.ts";
import { LANTERN_64, NORTHLIGHT_400, type Stock } from "../../../../witness/film/stocks.ts";
import { subject, type SubjectName } from "../../../../witness/scenes/subjects.ts";
import { halfScan } from "../../survey/rig.ts";

const size = { placement: GOOD_PLACEMENT, setup: GOOD_SETUP, width: 480, height: 320 } as const;
const filmOf = (name: SubjectName, stock: Stock): DevelopedFilm =>
  develop(subject(name, 240, 160, 7), stock, { format: FORMAT_135 }, 7);
const looked = (shot: ReturnType<typeof photographFilm>, name: string): FirstPassScan => {
  const { scan, info } = halfScan(shot);
  return { name, ...firstPassOf(scan, info) };
};
const inColours = (film: DevelopedFilm | "blank", camera = CAMERA_A): FirstPassScan[] =>
  photographThree({ camera, film, ...size }, 31).map((shot, i) => looked(shot, `${i}.dng`));
const inWhite = (film: DevelopedFilm, name: string): FirstPassScan => {
  const exposure = metered(CAMERA_A, PANEL, GOOD_SETUP, "bare light");
  return looked(photographFilm({ camera: CAMERA_A, light: PANEL, exposure, film, ...size }, 32), name);
};
const names = (scans: readonly FirstPassScan[] | undefined) => scans?.map(({ name }) => name);

describe("three scans under three lights", () => {
  it.each([CAMERA_A, CAMERA_B])("are told among the roll's other scans, by $model", (camera) => {
    const three = inColours(filmOf("street", NORTHLIGHT_400), camera);
    const blanks = inColours("blank", camera).map((scan) => ({ ...scan, name: `blank-${scan.name}` }));
    expect(names(threeLights([...blanks, ...three]))).toEqual(["0.dng", "1.dng", "2.dng"]);
    // The bare light shows no picture.
    expect(threeLights(blanks)).toBeUndefined();
    expect(threeLights(three.slice(0, 2))).toBeUndefined();
  });

  it("are not seen in pictures under white light, negatives or slides, nor in one of each of three pictures", () => {
    const subjects = ["street", "meadow", "night", "snow", "forest"] as const;
    for (const stock of [NORTHLIGHT_400, LANTERN_64])
      expect(threeLights(subjects.map((name) => inWhite(filmOf(name, stock), name)))).toBeUndefined();
    const mixed = (["street", "meadow", "night"] as const).map(
      (name, i) => inColours(filmOf(name, NORTHLIGHT_400))[i]!,
    );
    expect(threeLights(mixed)).toBeUndefined();
  });
});
