/** Which scans show a picture that another scan shows too: the later one was taken for the earlier. */
import { samePicture } from "../../../engine/verdict/same-picture.ts";
import { type Shot, shotKey } from "./join-shots.ts";

export interface DistinctShots {
  /** Scans that make frames, in order; of each picture the one that was taken last, where the first was. */
  readonly shots: readonly Shot[];
  /** Scans that are not used, by the key of the picture that is (`shotKey`). */
  readonly unused: ReadonlyMap<string, readonly string[]>;
  readonly warnings: readonly string[];
}

export function withoutRetakes(all: readonly Shot[]): DistinctShots {
  const shots: Shot[] = [];
  const unused = new Map<string, readonly string[]>();
  const warnings: string[] = [];
  for (const shot of all) {
    // Pictures on one scan lie on one piece of film, side by side.
    const comparisons = shots.map((one) => (one.name === shot.name ? "other" : samePicture(shot.seen, one.seen)));
    const at = comparisons.lastIndexOf("same");
    const lookalike = shots[comparisons.lastIndexOf("alike")];
    if (at < 0) {
      if (lookalike)
        warnings.push(
          `${shotText(shot)} looks like ${shotText(lookalike)}, but whether it is the same piece of film cannot be seen: each makes a ` +
            "frame. If it was photographed twice, remove one of them.",
        );
      shots.push(shot);
      continue;
    }
    const earlier = shots[at];
    warnings.push(
      earlier.part
        ? `${shotText(shot)} shows the same picture as ${shotText(earlier)}: it is used instead.`
        : `${shotText(shot)} shows the same picture as ${earlier.name}: it is used, and ${earlier.name} is listed as unused.`,
    );
    unused.set(shotKey(shot), [...(unused.get(shotKey(earlier)) ?? []), earlier.name]);
    unused.delete(shotKey(earlier));
    shots[at] = shot;
  }
  // A strip of which other pictures make frames is in use.
  const used = new Set(shots.map(({ name }) => name));
  return {
    shots,
    unused: new Map([...unused].map(([key, names]) => [key, names.filter((name) => !used.has(name))])),
    warnings,
  };
}

const shotText = ({ name, part }: Shot): string => (part ? `Picture ${part[0]} of ${name}` : name);
