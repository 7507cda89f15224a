/** The colour matrix that a raw file or its decoder states. */
import { describe, expect, test } from "vitest";
import { decodeScan } from "../../../../extension/scans/decode.ts";
import { colourMatrixOf } from "../../../witness/camera/colour-matrix.ts";
import { type Camera, CAMERA_A, CAMERA_B } from "../../../witness/camera/cameras.ts";
import { type DngOptions, writeDng } from "../../../witness/raw/dng.ts";
import type { Field } from "../../../witness/raw/tiff.ts";
import { drawMosaic, temporaryFolder } from "../files.ts";

const folder = temporaryFolder();
const SIDE = 64;
const [MATRIX_1, MATRIX_2, LIGHT_1, LIGHT_2] = [50721, 50722, 50778, 50779];
const [TUNGSTEN, D65, D50, FLUORESCENT] = [17, 21, 23, 2];

/** To four digits, as makers publish them: a file's fractions then hold them exactly. */
const published = (camera: Camera): number[][] =>
  colourMatrixOf(camera).map((row) => row.map((v) => Number(v.toFixed(4))));
const daylight = published(CAMERA_A);
const other = published(CAMERA_B);
let files = 0;

async function stated(tags: readonly (readonly [number, Field | undefined])[], options: Partial<DngOptions> = {}) {
  const data = drawMosaic(SIDE, SIDE);
  const bytes = writeDng({
    width: SIDE,
    height: SIDE,
    data,
    black: 512,
    white: 15000,
    tags: new Map(tags),
    ...options,
  });
  return (await decodeScan(folder.put(`${files++}.dng`, bytes))).info.colourMatrix;
}

const matrix = (m: readonly (readonly number[])[]): Field => ["srational", m.flat()];
const light = (code: number): Field => ["short", code];

describe("a DNG's colour matrix", () => {
  test("is the one for daylight, whichever of the two it is", async () => {
    const [own, warm] = [matrix(daylight), matrix(other)];
    expect(await stated([[MATRIX_1, own]])).toEqual(daylight);
    // Some writers name no light: what is named goes before.
    const unnamed = [MATRIX_1, own] as const;
    expect(await stated([unnamed, [LIGHT_1, undefined]])).toEqual(daylight);
    expect(await stated([unnamed, [LIGHT_1, undefined], [MATRIX_2, warm], [LIGHT_2, light(D50)]])).toEqual(other);
    for (const code of [D65, D50]) {
      const second = [
        [MATRIX_1, warm],
        [LIGHT_1, light(TUNGSTEN)],
        [MATRIX_2, own],
        [LIGHT_2, light(code)],
      ] as const;
      expect(await stated(second)).toEqual(daylight);
      const first = [
        [MATRIX_1, own],
        [LIGHT_1, light(code)],
        [MATRIX_2, warm],
        [LIGHT_2, light(TUNGSTEN)],
      ] as const;
      expect(await stated(first)).toEqual(daylight);
    }
    const two = [
      [MATRIX_1, warm],
      [LIGHT_1, light(D50)],
      [MATRIX_2, own],
      [LIGHT_2, light(D65)],
    ] as const;
    expect(await stated(two)).toEqual(daylight);
  });

  test("is absent where there is none, none for daylight, or one that is no matrix", async () => {
    const own = matrix(daylight);
    const cases: (readonly (readonly [number, Field | undefined])[])[] = [
      [[MATRIX_1, undefined]],
      [[LIGHT_1, light(TUNGSTEN)]],
      [[LIGHT_1, light(FLUORESCENT)]],
      [[MATRIX_1, ["srational", daylight.flat().slice(0, 8)]]],
      [[MATRIX_1, ["srational", [...daylight.flat(), 1, 2, 3]]]],
      [[MATRIX_1, ["srational", Array.from({ length: 9 }, () => 0)]]],
      [[MATRIX_1, ["srational", Array.from({ length: 9 }, () => [1, 0] as const)]]],
      [[MATRIX_1, ["ascii", "matrix"]]],
    ];
    for (const tags of cases) expect(await stated(tags), `${JSON.stringify(tags)}`).toBeUndefined();
    // The second one is good where the first is not.
    const second = [
      [MATRIX_1, ["srational", [1, 2]]],
      [MATRIX_2, own],
      [LIGHT_2, light(D50)],
    ] as const;
    expect(await stated(second)).toEqual(daylight);
  });

  test("is absent for a sensor without filters", async () => {
    expect(await stated([], { kind: "monochrome" })).toBeUndefined();
  });

  test("is that of three colours at every pixel too", async () => {
    const data = new Uint16Array(SIDE * SIDE * 3).fill(3000);
    expect(await stated([], { kind: "linear", data, black: 0, colourMatrix: daylight.flat() })).toEqual(daylight);
  });
});
