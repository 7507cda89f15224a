/** What changes in a roll's recipe when a scan's file is renamed. */
import type { ValueEdit } from "../../../recipe/edit/edit.ts";
import type { RecipePath } from "../../../recipe/path.ts";
import { CHANNEL_ORDER } from "../../../recipe/resolve/channels.ts";
import type { RollView } from "./roll-view.ts";

/** Returns the edits that put `name` wherever the roll names `from`. */
export function renameEdits({ frames, blank, threeBlanks }: RollView, from: string, name: string): ValueEdit[] {
  const swap = (names: readonly string[]): string[] => names.map((one) => (one === from ? name : one));
  const inChannels = (names: readonly string[], path: RecipePath): ValueEdit[] =>
    names.flatMap((one, i) => (one === from ? [{ path: [...path, CHANNEL_ORDER[i]!], value: name }] : []));
  const inFrame = ({ id, scans, key }: RollView["frames"][number]): ValueEdit[] => {
    if (!scans.includes(from)) return [];
    if (key === "channels") return inChannels(scans, ["frames", id, key]);
    return scans.length === 1
      ? [{ path: ["frames", id, "scan"], value: name }]
      : [{ path: ["frames", id, key ?? "scans"], value: swap(scans) }];
  };
  return [
    ...(threeBlanks
      ? inChannels(threeBlanks, ["light", "blank"])
      : blank === from
        ? [{ path: ["light", "blank"], value: name }]
        : []),
    ...frames.flatMap((frame): ValueEdit[] => [
      ...inFrame(frame),
      ...(frame.unused.includes(from) ? [{ path: ["frames", frame.id, "unused"], value: swap(frame.unused) }] : []),
    ]),
  ];
}
