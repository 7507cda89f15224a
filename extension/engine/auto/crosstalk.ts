/** How much of one another's layers a camera's channels see: its model's, or the mean of all cameras. */
import type { Matrix3 } from "../types.ts";
import { CROSSTALK, CROSSTALK_BY_CAMERA } from "./table.ts";

export type CrosstalkOrigin = "model" | "mean";

const plain = (name: string): string => name.toLowerCase().replaceAll("_", " ").replace(/\s+/g, " ").trim();
const models = new Map(Object.entries(CROSSTALK_BY_CAMERA).map(([id, matrix]) => [plain(id), matrix]));

/** @param camera whose model may begin with its maker's name: the longest end that is known counts */
export function crosstalkOf(camera?: { readonly model?: string }): { matrix: Matrix3; from: CrosstalkOrigin } {
  const words = plain(camera?.model ?? "").split(" ");
  for (let i = 0; i < words.length; i++) {
    const matrix = models.get(words.slice(i).join(" "));
    if (matrix) return { matrix, from: "model" };
  }
  return { matrix: CROSSTALK, from: "mean" };
}
