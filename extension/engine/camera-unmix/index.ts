/** Which unmix matrix suits scans by a camera, by the model that it writes into its files. */
import type { Matrix3 } from "../types.ts";
import { GENERIC, TABLE } from "./table.ts";

const plain = (name: string): string => name.toLowerCase().replaceAll("_", " ").replace(/\s+/g, " ").trim();

const models = new Map(Object.entries(TABLE).map(([id, nine]) => [plain(id), nine]));

const rows = (n: readonly number[]): Matrix3 => [
  [n[0], n[1], n[2]],
  [n[3], n[4], n[5]],
  [n[6], n[7], n[8]],
];

/** Makers write their name before the model or not: the longest end of it that is known counts. */
export function unmixOf(model: string | undefined): { readonly matrix: Matrix3; readonly known: boolean } {
  const words = plain(model ?? "").split(" ");
  for (let i = 0; i < words.length; i++) {
    const nine = models.get(words.slice(i).join(" "));
    if (nine) return { matrix: rows(nine), known: true };
  }
  return { matrix: rows(GENERIC), known: false };
}

/** Models that the table knows, as published. */
export const knownModels: readonly string[] = Object.keys(TABLE);
