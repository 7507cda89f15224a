/** The merge driver that git calls for recipes (`rollbook git-setup` registers it). */
import { errorText } from "../scans/files/system-errors.ts";
import { RecipeEditError } from "../recipe/edit/edit.ts";
import { type MergedText, mergeRecipes, type MergeOptions } from "../recipe/merge/merge.ts";
import { badByteIn, decodeRecipe } from "../recipe/yaml/encoding.ts";
import { writeAtomic } from "../scans/files/atomic.ts";
import { readPlainFile } from "../work/files/read-plain-file.ts";
import { mergeLines } from "../work/review/git/merge-lines.ts";
import { EXIT, text, type Verb, whole } from "./verb.ts";

/** git takes 1 to 128 for conflicts in a text that is there; above, the text is as it was and nothing was merged. */
const NOT_MERGED = 129;

export const mergeDriver: Verb = {
  name: "merge-driver",
  internal: true,
  summary: "merge a recipe, for git merge",
  usage: "BASE OURS THEIRS [--marker N] [--path FILE]",
  details: "Merges two recipes that come from a third, by their values, into OURS. Called by git; see git-setup.",
  example: "rollbook merge-driver base.yaml ours.yaml theirs.yaml --path harbour.roll.yaml",
  options: {
    marker: { value: "N", help: "length of conflict markers (default: 7)" },
    path: { value: "FILE", help: "the recipe's name in the repository" },
  },
  files: [3, 3],
  async run(call) {
    const [base, ours, theirs] = call.files as [string, string, string];
    const { terminal } = call;
    try {
      const size = whole(call, "marker", 1, 200) ?? 7;
      const file = text(call, "path") ?? ours;
      const [old, mine, other] = [base, ours, theirs].map((path) => decodeRecipe(readPlainFile(path)));
      const lines = await mergeLines([base, ours, theirs], size, call.signal);
      const byLines = lines.conflicts === 0 ? decodeRecipe(lines.bytes) : undefined;
      const merged = mergedOrWhyNot(old!, mine!, other!, { file, byLines, size });
      if (typeof merged === "string") {
        await writeAtomic(ours, lines.bytes);
        terminal.printError(`${file} was merged line by line and left as a conflict: ${merged}`);
        return EXIT.problems;
      }
      await writeAtomic(ours, merged?.text ?? lines.bytes);
      if (!merged) terminal.printError(`${file} was merged line by line: one of its versions is not valid YAML.`);
      for (const path of merged?.conflicts ?? []) terminal.printError(`${file}: both sides changed ${path}.`);
      if (merged && merged.lostComments.length > 0)
        terminal.printError(
          `${file}: comments of the other side that found no place: ${merged.lostComments.join(" ")}`,
        );
      return (merged ? merged.conflicts.length : lines.conflicts) > 0 ? EXIT.problems : EXIT.good;
    } catch (error) {
      terminal.printError(errorText(error));
      return NOT_MERGED;
    }
  },
};

/** The merged text; undefined where a version is not YAML; a sentence where a person has to see to it. */
function mergedOrWhyNot(
  base: string,
  ours: string,
  theirs: string,
  options: MergeOptions,
): MergedText | undefined | string {
  if ([base, ours, theirs].some((version) => badByteIn(version)))
    return "one of its versions is not UTF-8. Save it as UTF-8, look it over, and add it.";
  try {
    return mergeRecipes(base, ours, theirs, options);
  } catch (error) {
    if (error instanceof RecipeEditError) return error.message;
    throw error;
  }
}
