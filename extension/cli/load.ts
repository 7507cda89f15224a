/** Reads the recipes that a verb is given, with everything that they refer to. */
import { existsSync, statSync } from "node:fs";
import { hasErrors } from "../recipe/problems.ts";
import type { RecipeDocument } from "../recipe/problems/document.ts";
import type { ResolvedRoll } from "../recipe/resolve/resolve.ts";
import { loadRoll } from "../recipe/resolve/workspace.ts";
import { openWorkspace, type Workspace, workspaceOf } from "../work/files/workspace.ts";
import { printProblems, countText, locate, type LocatedProblem, shownPath } from "./problems.ts";
import { type Call, text, UsageError } from "./verb.ts";

/** A recipe that has been read with everything it refers to. */
export interface LoadedRecipe {
  readonly workspace: Workspace;
  readonly document: RecipeDocument;
  /** Absent when the text could not be read at all. */
  readonly resolved?: ResolvedRoll;
  /** Path for people, from the folder the command runs in. */
  readonly shown: string;
  readonly problems: readonly LocatedProblem[];
  readonly broken: boolean;
}

/** A recipe without errors. */
export type ValidRecipe = LoadedRecipe & { readonly resolved: ResolvedRoll };

/** The option of every verb that reads recipes. */
export const ROOT_OPTION = {
  root: {
    value: "FOLDER",
    help: "folder that paths in recipes may not leave (default: nearest above with .git, else the one above the recipe's)",
  },
} as const;

/** The workspace that --root names, or that a file lies in. */
export function workspaceFor(call: Call, file: string): Workspace {
  const root = text(call, "root");
  return root ? openWorkspace(root) : workspaceOf(file);
}

/**
 * Reads a recipe, its stock, and whether its scans are there.
 * @throws UsageError when there is no such file.
 */
export async function loadRecipe(call: Call, file: string): Promise<LoadedRecipe> {
  const workspace = workspaceFor(call, file);
  const path = workspace.inside(file);
  const full = workspace.absolute(path); // a link that leads out is refused by name, not as missing
  if (existsSync(full) && !statSync(full).isFile()) throw new UsageError(`${file} is not a file. Name a recipe.`);
  const loaded = await loadRoll(path, workspace);
  if (!loaded) throw new UsageError(`There is no recipe ${file}.`);
  const { roll: document, resolved, problems } = loaded;
  const shown = shownPath(workspace, path);
  const located = problems.map((problem) => locate(document, problem, shown));
  return { workspace, document, resolved, shown, problems: located, broken: hasErrors(problems) };
}

/**
 * For verbs that act on a recipe: reads it and complains about its problems. Undefined when it has errors: then
 * everything is said, and the verb ends with EXIT.problems.
 */
export async function loadValid(call: Call): Promise<ValidRecipe | undefined> {
  const { terminal } = call;
  const recipe = await loadRecipe(call, call.files[0]);
  const { resolved, broken, problems, shown } = recipe;
  const listed = broken ? problems.filter((p) => p.severity === "error") : problems;
  printProblems(terminal, listed, "err");
  if (!broken && resolved) return { ...recipe, resolved };
  terminal.printError(`${shown} has ${countText(listed)}; fix them first.`);
  terminal.result({ ok: false, recipe: shown, problems });
  return undefined;
}
