/** Which scans show a picture that another scan shows too: the later one was taken for the earlier. */
import { samePicture } from "../../../engine/verdict/same-picture.ts";
import type { Shot } from "./join-shots.ts";

export interface DistinctShots {
  /** Scans that make frames, in order; of each picture the one that was taken last, where the first was. */
  readonly shots: readonly Shot[];
  /** Scans that are not used, by the name of the one that is. */
  readonly unused: ReadonlyMap<string, readonly string[]>;
  readonly warnings: readonly string[];
}

export function withoutRetakes(all: readonly Shot[]): DistinctShots {
  const shots: Shot[] = [];
  const unused = new Map<string, readonly string[]>();
  const warnings: string[] = [];
  for (const shot of all) {
    const comparisons = shots.map((one) => samePicture(shot.seen, one.seen));
    const at = comparisons.lastIndexOf("same");
    const lookalike = shots[comparisons.lastIndexOf("alike")];
    if (at < 0) {
      if (lookalike)
        warnings.push(
          `${shot.name} looks like ${lookalike.name}, but whether it is the same piece of film cannot be seen: each makes a ` +
            "frame. If it was photographed twice, remove one of them.",
        );
      shots.push(shot);
      continue;
    }
    const earlier = shots[at];
    warnings.push(
      `${shot.name} shows the same picture as ${earlier.name}: it is used, and ${earlier.name} is listed as unused.`,
    );
    unused.set(shot.name, [...(unused.get(earlier.name) ?? []), earlier.name]);
    unused.delete(earlier.name);
    shots[at] = shot;
  }
  return { shots, unused, warnings };
}
