/** Which unmix is chosen for a camera, and colour matrices that cannot be a camera's. */
import { describe, expect, it } from "vitest";
import { unmixOf } from "../../../../extension/engine/calibrate/camera-unmix/index.ts";
import { predictUnmix, shapeOf } from "../../../../extension/engine/calibrate/camera-unmix/prediction.ts";
import { GENERIC, PREDICTION } from "../../../../extension/engine/calibrate/camera-unmix/table.ts";
import type { Matrix3 } from "../../../../extension/engine/types.ts";
import { CAMERA_A, CAMERA_B } from "../../../witness/camera/cameras.ts";
import { colourMatrixOf } from "../../../witness/camera/colour-matrix.ts";
import fc from "../../../properties.ts";

const matrixA: Matrix3 = colourMatrixOf(CAMERA_A);
const scaledRows = (m: Matrix3, by: readonly number[]): Matrix3 =>
  m.map((row, i) => row.map((v) => v * by[i])) as unknown as Matrix3;

describe("the choice of an unmix", () => {
  it("is the model's, then the colour matrix's, then the generic one", () => {
    expect(unmixOf("ILCE-7RM4", matrixA)).toEqual(unmixOf("ILCE-7RM4"));
    expect(unmixOf("ILCE-7RM4", matrixA).from).toBe("model");
    const { matrix, from } = unmixOf(CAMERA_A.model, matrixA);
    expect(from).toBe("colour matrix");
    expect(matrix).toEqual(predictUnmix(PREDICTION, matrixA));
    expect(matrix.flat()).not.toEqual(GENERIC);
    expect(unmixOf(CAMERA_A.model)).toMatchObject({ from: "generic" });
    expect(unmixOf(undefined).matrix.flat()).toEqual(GENERIC);
    expect(unmixOf(undefined, matrixA).from).toBe("colour matrix");
  });

  it("heeds shapes only: gains of the channels change nothing", () => {
    const other = unmixOf(undefined, scaledRows(matrixA, [2.7, 1, 0.01])).matrix;
    unmixOf(undefined, matrixA)
      .matrix.flat()
      .forEach((v, i) => expect(other.flat()[i]).toBeCloseTo(v, 10));
    expect(unmixOf(undefined, colourMatrixOf(CAMERA_B)).matrix).not.toEqual(unmixOf(undefined, matrixA).matrix);
  });
});

describe("colour matrices that cannot be a camera's", () => {
  const [r, g, b] = matrixA;
  const of = (...rows: readonly (readonly number[])[]): Matrix3 => rows as unknown as Matrix3;
  it.each([
    ["nothing but zeros", of([0, 0, 0], [0, 0, 0], [0, 0, 0])],
    ["a unit matrix in place of one", of([1, 0, 0], [0, 1, 0], [0, 0, 1])],
    // IEC 61966-2-1.
    ["XYZ to a screen's colours", of([3.2406, -1.5372, -0.4986], [-0.9689, 1.8758, 0.0415], [0.0557, -0.204, 1.057])],
    ["two channels alike", of(r, g, g)],
    ["channels in another order", of(b, g, r)],
    [
      "a channel that sees no white",
      of(
        r,
        g,
        b.map((v) => -v),
      ),
    ],
    ["no numbers", of([Number.NaN, 0, 0], g, b)],
    ["no end", of([Infinity, 0, 0], g, b)],
    [
      "numbers whose sum has no end",
      of(
        r.map((v) => v * 1e308 * 10),
        g,
        b,
      ),
    ],
  ])("are skipped: %s", (_, matrix) => {
    expect(predictUnmix(PREDICTION, matrix)).toBeUndefined();
    expect(unmixOf("Box 1", matrix)).toEqual(unmixOf("Box 1"));
  });

  it("whatever else is given, an unmix stays what a camera may need", () => {
    const number = fc.double({ min: -3, max: 3, noNaN: true });
    const row = fc.tuple(number, number, number);
    let predicted = 0;
    fc.assert(
      fc.property(fc.tuple(row, row, row), (noise) => {
        const matrix = matrixA.map((own, i) => own.map((v, j) => v + 0.15 * noise[i][j])) as unknown as Matrix3;
        const { matrix: unmix, from } = unmixOf(undefined, matrix);
        if (from === "colour matrix") predicted++;
        // Known cameras: greys 1.24 to 1.30, 1.09 to 1.14, 1.02 to 1.06; noise at most 2.27.
        const greys = unmix.map((row) => row[0] + row[1] + row[2]);
        [1.27, 1.115, 1.04].forEach((usual, c) => expect(Math.abs(greys[c] - usual)).toBeLessThan(0.12));
        for (const own of unmix) expect(Math.hypot(...own)).toBeLessThan(3);
      }),
    );
    expect(predicted).toBeGreaterThan(10);
  });

  it("leave six numbers of the others", () => {
    expect(shapeOf(matrixA)).toHaveLength(6);
    expect(shapeOf(scaledRows(matrixA, [1, 1, -1]))).toBeUndefined();
  });
});
