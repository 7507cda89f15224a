/** What changes in a roll's recipe when a scan's file is renamed. */
import type { ValueEdit } from "../../../recipe/edit/edit.ts";
import type { RollView } from "./roll-view.ts";

/** Returns the edits that put `name` wherever the roll names `from`. */
export function renameEdits({ frames, blank }: RollView, from: string, name: string): ValueEdit[] {
  const swap = (names: readonly string[]): string[] => names.map((one) => (one === from ? name : one));
  return [
    ...(blank === from ? [{ path: ["light", "blank"], value: name }] : []),
    ...frames.flatMap(({ id, scans, unused }): ValueEdit[] => [
      ...(scans.includes(from)
        ? [
            scans.length === 1
              ? { path: ["frames", id, "scan"], value: name }
              : { path: ["frames", id, "scans"], value: swap(scans) },
          ]
        : []),
      ...(unused.includes(from) ? [{ path: ["frames", id, "unused"], value: swap(unused) }] : []),
    ]),
  ];
}
