/** The commands above a frame's line. */
import type { RecipeDocument } from "../problems/document.ts";
import type { Problem } from "../problems.ts";
import { target } from "../yaml/ast.ts";
import { type Range, rangeIn } from "./types.ts";

/** What can be done with a frame, above its line. Whether the editor has such a command is for the editor to say. */
export interface FrameLens {
  readonly frame: string;
  readonly range: Range;
  readonly problems: readonly Problem[];
}

/** One for each frame, in the order of the text. Quick: nothing is resolved. */
export function frameLenses(document: RecipeDocument, problems: readonly Problem[]): FrameLens[] {
  const root = document.ast && target(document.ast);
  const frames = root?.kind === "mapping" ? root.entries.find(({ name }) => name === "frames") : undefined;
  const mapping = frames && target(frames.value);
  if (document.kind !== "roll" || mapping?.kind !== "mapping") return [];
  const byFrame = problemsByFrame(problems);
  return mapping.entries.map(({ name, key }) => ({
    frame: name,
    range: rangeIn(document, [key.start, key.end]),
    problems: byFrame.get(name) ?? [],
  }));
}

/** Problems by the frame that they are in. */
export function problemsByFrame(problems: readonly Problem[]): Map<string, Problem[]> {
  const found = new Map<string, Problem[]>();
  for (const one of problems) {
    if (one.path[0] !== "frames" || one.path.length < 2) continue;
    const id = String(one.path[1]);
    const others = found.get(id);
    if (others) others.push(one);
    else found.set(id, [one]);
  }
  return found;
}
