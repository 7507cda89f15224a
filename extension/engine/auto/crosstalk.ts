/** How much of one another's layers a camera's channels see: its model's, or the mean of all cameras. */
import type { Matrix3 } from "../types.ts";
import { CROSSTALK, CROSSTALK_BY_CAMERA } from "./table.ts";

export type CrosstalkOrigin = "model" | "mean";

const normalised = (name: string): string => name.toLowerCase().replaceAll("_", " ").replace(/\s+/g, " ").trim();
const models = new Map(Object.entries(CROSSTALK_BY_CAMERA).map(([id, matrix]) => [normalised(id), matrix]));

/**
 * Part of the crosstalk that a start takes out. All of it brings colours to their full chroma and doubles every cast that
 * the axis leaves; half of it with a print's contrast brings nine tenths of the chroma and a third of the added cast
 * (docs/automatic-start.md has the table).
 */
const REMOVED_SHARE = 0.5;

/** Crosstalk of which a part is to be taken out. */
export const partOf = (matrix: Matrix3, part = REMOVED_SHARE): Matrix3 =>
  matrix.map((row, i) => row.map((v, j) => part * v + (i === j ? 1 - part : 0))) as unknown as Matrix3;

/** @param camera whose model may begin with its maker's name: the longest end that is known counts */
export function crosstalkOf(camera?: { readonly model?: string }): { matrix: Matrix3; from: CrosstalkOrigin } {
  const words = normalised(camera?.model ?? "").split(" ");
  for (let i = 0; i < words.length; i++) {
    const matrix = models.get(words.slice(i).join(" "));
    if (matrix) return { matrix: partOf(matrix), from: "model" };
  }
  return { matrix: partOf(CROSSTALK), from: "mean" };
}
