/** Which recipes say something else than before, and what follows from it. Reads texts alone. */
import { type Change, diffRecipes, type FrameDiff, type RecipeState } from "../../recipe/diff/diff.ts";
import { type RollImpact, stockImpact } from "../../recipe/diff/impact.ts";
import { findRenames } from "../../recipe/diff/renames.ts";
import { parseRecipe } from "../../recipe/problems/document.ts";
import { kindOfFile } from "../../recipe/path.ts";
import type { Problem } from "../../recipe/problems.ts";
import { resolveRoll } from "../../recipe/resolve/resolve.ts";
import { loadRoll } from "../../recipe/resolve/workspace.ts";
import type { ReviewRecipe } from "../../review-report.ts";
import { recipesAsFiles } from "./recipes-as-files.ts";
import { errorsOf } from "./problems.ts";
import type { Snapshot } from "./git/snapshot.ts";

/** A roll or stock with both of its states. */
export interface ChangedRecipe {
  readonly kind: "roll" | "stock";
  readonly file: string;
  readonly was?: string;
  readonly status: ReviewRecipe["status"];
  readonly before?: RecipeState;
  readonly after?: RecipeState;
  readonly changes: readonly Change[];
  readonly frames: readonly FrameDiff[];
  readonly formattingOnly: boolean;
  /** Of a stock: the frames whose pictures its change may alter, by roll. */
  readonly impact: readonly RollImpact[];
  readonly problems: readonly string[];
}

type Texts = ReadonlyMap<string, string>;

/**
 * Recipes that changed, and rolls whose stock changed. `only` keeps some: a roll brings its stock's changes with its own
 * values, a stock brings the rolls that use it.
 */
export async function findChanges(
  before: Pick<Snapshot, "recipes">,
  after: Pick<Snapshot, "recipes">,
  only?: readonly string[],
): Promise<ChangedRecipe[]> {
  const [was, is] = [before.recipes, after.recipes];
  const renames = renamesBetween(was, is);
  const renamed = new Set(renames.values());
  const files = [...new Set([...is.keys(), ...[...was.keys()].filter((file) => !renamed.has(file))])].toSorted();
  const stocks = files.filter((file) => kindOfFile(file) === "stock" && textChanged(file));
  const found: ChangedRecipe[] = [];
  const rolls: RecipeState[] = [];
  for (const file of files.filter((name) => kindOfFile(name) === "roll")) {
    // A roll whose own text stayed can only have changed with a stock that it names.
    if (!textChanged(file) && !mentionsAny(file, stocks)) continue;
    const sides = { before: await sideOf(was, renames.get(file) ?? file), after: await sideOf(is, file) };
    if (sides.after) rolls.push(sides.after);
    if (only && !only.includes(file) && !only.includes(renames.get(file) ?? file) && !usesAny(sides, only)) continue;
    found.push(recipeOf(file, sides));
  }
  for (const file of stocks) {
    const uses = rolls.filter(({ stock }) => stock?.file === file);
    if (only && !only.includes(file) && !uses.some(({ roll }) => only.includes(roll.file))) continue;
    const old = renames.get(file) ?? file;
    const sides = { before: await sideOf(was, old), after: await sideOf(is, file) };
    found.push({ ...recipeOf(file, sides), impact: stockImpact(sides.before?.roll, sides.after?.roll, uses) });
  }
  return found.filter((recipe) => hasContent(recipe));

  function textChanged(file: string): boolean {
    return renames.has(file) || plainLines(was.get(file)) !== plainLines(is.get(file));
  }

  function mentionsAny(file: string, names: readonly string[]): boolean {
    const text = is.get(file) ?? was.get(file) ?? "";
    return [...names, ...names.flatMap((name) => renames.get(name) ?? [])].some((name) =>
      text.includes(name.slice(name.lastIndexOf("/") + 1)),
    );
  }

  function recipeOf(file: string, { before: old, after: now }: LoadedSides): ChangedRecipe {
    const diff = old && now ? diffRecipes(old, now) : addedOrRemoved(old, now);
    const status = !old
      ? "added"
      : !now
        ? "removed"
        : renames.has(file)
          ? "renamed"
          : textChanged(file)
            ? "changed"
            : "affected";
    return {
      kind: kindOfFile(file),
      file,
      ...(renames.has(file) ? { was: renames.get(file) } : {}),
      status,
      before: old,
      after: now,
      ...diff,
      impact: [],
      problems: now ? errorsOf(now, now.problems) : [],
    };
  }
}

/** A recipe with whatever it refers to, in one state. */
type LoadedSide = RecipeState & { readonly problems: readonly Problem[] };

interface LoadedSides {
  readonly before?: LoadedSide;
  readonly after?: LoadedSide;
}

async function sideOf(texts: Texts, file: string): Promise<LoadedSide | undefined> {
  const text = texts.get(file);
  if (text === undefined) return undefined;
  const loaded = await loadRoll(file, recipesAsFiles(texts));
  const roll = loaded?.roll ?? parseRecipe(text, { file });
  const resolved = loaded?.resolved ?? resolveRoll(roll);
  return { roll, stock: loaded?.stock, resolved, problems: loaded?.problems ?? roll.problems };
}

/** A recipe that is new or gone: its frames, without every single value. */
function addedOrRemoved(
  before: RecipeState | undefined,
  after: RecipeState | undefined,
): Pick<ChangedRecipe, "changes" | "frames" | "formattingOnly"> {
  const frames = (after ?? before)?.resolved.frames ?? [];
  return {
    changes: [],
    formattingOnly: false,
    frames: frames.map((frame) => ({
      id: frame.id,
      ...(after ? { after: frame, status: "added" } : { before: frame, status: "removed" }),
      looksDifferent: !frame.skip,
    })),
  };
}

/** Line ends alone are no change: git may write them as the system has them. */
const plainLines = (text: string | undefined): string | undefined => text?.replaceAll("\r\n", "\n");

function renamesBetween(was: Texts, is: Texts): Map<string, string> {
  const only = (texts: Texts, others: Texts): Map<string, string> =>
    new Map([...texts].filter(([file]) => !others.has(file)));
  return findRenames(only(was, is), only(is, was));
}

const usesAny = ({ before, after }: { before?: RecipeState; after?: RecipeState }, only: readonly string[]): boolean =>
  [before?.stock?.file, after?.stock?.file].some((file) => file !== undefined && only.includes(file));

/** A roll that only mentions a stock, or one whose stock changed in nothing that applies to it, is no news. */
const hasContent = ({ status, changes, frames, problems }: ChangedRecipe): boolean =>
  status !== "affected" || changes.length > 0 || frames.length > 0 || problems.length > 0;
