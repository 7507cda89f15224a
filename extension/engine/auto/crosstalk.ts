/** How much of one another's layers a camera's channels see: its model's, or the mean of all cameras. */
import type { Matrix3 } from "../types.ts";
import { CROSSTALK, CROSSTALK_BY_CAMERA } from "./table.ts";

export type CrosstalkOrigin = "model" | "mean";

const plain = (name: string): string => name.toLowerCase().replaceAll("_", " ").replace(/\s+/g, " ").trim();
const models = new Map(Object.entries(CROSSTALK_BY_CAMERA).map(([id, matrix]) => [plain(id), matrix]));

/**
 * Part of the crosstalk that a start takes out. All of it brings colours to their full chroma and doubles every cast that
 * the axis leaves; half of it with a print's contrast brings nine tenths of the chroma and a third of the added cast
 * (docs/automatic-start.md has the table).
 */
const TAKEN_OUT = 0.5;

const eased = (matrix: Matrix3): Matrix3 =>
  matrix.map((row, i) => row.map((v, j) => TAKEN_OUT * v + (i === j ? 1 - TAKEN_OUT : 0))) as unknown as Matrix3;

/** @param camera whose model may begin with its maker's name: the longest end that is known counts */
export function crosstalkOf(camera?: { readonly model?: string }): { matrix: Matrix3; from: CrosstalkOrigin } {
  const words = plain(camera?.model ?? "").split(" ");
  for (let i = 0; i < words.length; i++) {
    const matrix = models.get(words.slice(i).join(" "));
    if (matrix) return { matrix: eased(matrix), from: "model" };
  }
  return { matrix: eased(CROSSTALK), from: "mean" };
}
