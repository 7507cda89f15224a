/** Loads a roll with its stock and tables through an interface to its files. */
import { checkBaseOf } from "../problems/checks/all.ts";
import { parseRecipe, type RecipeDocument } from "../problems/document.ts";
import type { RecipePath } from "../path.ts";
import { folderOf, resolveInside } from "../paths.ts";
import { hasErrors, type Problem, problem } from "../problems.ts";
import { type Pointer, pointerText, SIDECAR } from "./pointer.ts";
import { sharedNames } from "./picture-name.ts";
import { blanksOf, CHANNEL_ORDER } from "./channels.ts";
import { type ResolvedLight, type ResolvedRoll, resolveRoll, type ScanPlace } from "./resolve.ts";
import { scanPath } from "./scan-path.ts";

/** The files around a recipe, as an editor or a command provides them. Paths use / and are of the form of the recipe's own. */
export interface RecipeFiles {
  /** Folders that paths in recipes may lead to; for relative paths the root is "". */
  readonly roots?: readonly string[];
  /** The text of a file; undefined when there is none. */
  read(path: string): Promise<string | undefined>;
  exists(path: string): Promise<boolean>;
  /** Names in a folder; undefined when there is none. */
  list(folder: string): Promise<readonly string[] | undefined>;
  /** What lies at a path in place of a scan that is kept elsewhere; undefined for a scan itself. Absent: not looked for. */
  pointer?(path: string): Promise<Pointer | undefined>;
}

export interface LoadedRoll {
  readonly roll: RecipeDocument;
  readonly stock?: RecipeDocument;
  /** Present whenever the recipe could be read at all; see `problems` for whether it may be rendered. */
  readonly resolved?: ResolvedRoll;
  /** Problems of the roll's own text, those included that other files cause. The stock's are in `stock.problems`. */
  readonly problems: readonly Problem[];
  /** Paths of scans that were not found, or not fetched from where they are kept. */
  readonly missing: ReadonlySet<string>;
}

/** Loads a roll (or a stock) with what it refers to; undefined when there is no such file. */
export async function loadRoll(path: string, files: RecipeFiles): Promise<LoadedRoll | undefined> {
  const text = await files.read(path);
  return text === undefined ? undefined : loadDocument(parseRecipe(text, { file: path, roots: files.roots }), files);
}

/** The same for a text that may not be saved. */
export async function loadDocument(roll: RecipeDocument, files: RecipeFiles): Promise<LoadedRoll> {
  if (roll.value === undefined) return { roll, problems: roll.problems, missing: new Set() };
  const { stock, problems: stockProblems } = await loadStock(roll, files);
  const resolved = resolveRoll(roll, stock);
  const { missing, problems: scanProblems } = await checkScans(roll, resolved, files);
  const meaning = stock && roll.wellFormed ? checkBaseOf(roll, resolved.film) : [];
  const problems = [
    ...roll.problems,
    ...stockProblems,
    ...scanProblems,
    ...(await checkProfiles(roll, files)),
    ...meaning,
    ...checkNames(roll, resolved),
  ].toSorted((a, b) => a.range[0] - b.range[0]);
  return { roll, stock, resolved, problems, missing };
}

interface LoadedStock {
  readonly stock?: RecipeDocument;
  readonly problems: readonly Problem[];
}

async function loadStock(roll: RecipeDocument, files: RecipeFiles): Promise<LoadedStock> {
  const path = ["stock"];
  const written = roll.kind === "roll" ? field(roll.value, "stock") : undefined;
  if (typeof written !== "string" || roll.problems.some((p) => p.severity === "error" && p.path[0] === "stock"))
    return { problems: [] };
  const found = resolveInside(files.roots, roll.file, written).path;
  if (found === undefined) return { problems: [] };
  const range = roll.rangeOf(path) ?? [0, 0];
  const stockProblem = (
    code: "missing-stock" | "broken-stock" | "not-a-stock",
    message: string,
    related?: Problem["related"],
  ): Problem => problem(code, range, path, message, { data: { file: found }, related });
  const text = await files.read(found);
  if (text === undefined)
    return {
      problems: [
        stockProblem(
          "missing-stock",
          `There is no stock ${found}. Check the path, which is relative to this file, or create the stock.`,
        ),
      ],
    };
  if (/\.roll\.ya?ml$/i.test(found))
    return {
      problems: [stockProblem("not-a-stock", `${found} is a roll. Choose a file whose name ends in .stock.yaml.`)],
    };
  const stock = parseRecipe(text, { file: found, kind: "stock", roots: files.roots });
  const errors = stock.problems.filter((p) => p.severity === "error");
  if (!hasErrors(stock.problems)) return { stock, problems: [] };
  const related = errors.slice(0, 5).map((p) => ({ file: found, range: p.range, message: p.message }));
  const count = errors.length === 1 ? "an error" : `${errors.length} errors`;
  return {
    stock,
    problems: [
      stockProblem(
        "broken-stock",
        `The stock ${found} has ${count}; what is wrong there is not used. Fix the stock.`,
        related,
      ),
    ],
  };
}

/** A warning at the line of each scan that was not found, or is not fetched. Folders are listed once, whatever the number of frames. */
async function checkScans(
  roll: RecipeDocument,
  resolved: ResolvedRoll,
  files: RecipeFiles,
): Promise<{ missing: Set<string>; problems: Problem[] }> {
  const folders = new Map<string, ReadonlySet<string> | undefined>();
  const missing = new Set<string>();
  const problems: Problem[] = [];
  /** Undefined for a scan that is there. */
  const stateOf = async ({ path }: ScanPlace): Promise<"missing" | Pointer | undefined> => {
    const folder = folderOf(path);
    if (!folders.has(folder)) {
      const names = await files.list(folder);
      folders.set(folder, names && new Set(names));
    }
    const name = path.slice(path.lastIndexOf("/") + 1);
    if (folders.get(folder)?.has(name)) return files.pointer?.(path);
    return folders.get(folder)?.has(`${name}${SIDECAR}`) ? { store: "dvc" } : "missing";
  };
  const check = async (scan: ScanPlace, at: RecipePath, what: string): Promise<void> => {
    const state = await stateOf(scan);
    if (state === undefined) return;
    missing.add(scan.path);
    const range = roll.rangeOf(at);
    if (!range) return;
    const { path } = scan;
    if (state === "missing") {
      const message = `There is no ${path}. ${what} until it is there; check the name, or the folder under scans.`;
      problems.push(problem("missing-scan", range, at, message, { data: { file: path } }));
    } else {
      const { what: is, command } = pointerText(path, state);
      const message = `${path} ${is}. ${what} until it is fetched. Fetch it first: ${command}.`;
      problems.push(problem("scan-not-fetched", range, at, message, { data: { file: path } }));
    }
  };
  const blankOf = resolved.originOf(undefined, ["light", "blank"]);
  const checkBlanks = async ({ blanks, ...light }: ResolvedLight, at: RecipePath, what: string): Promise<void> => {
    for (const [i, blank] of blanksOf({ ...light, blanks }).entries())
      await check(blank, blanks ? [...at, CHANNEL_ORDER[i]!] : at, what);
  };
  if (blankOf)
    await checkBlanks(resolved.shared.light, blankOf.path, "Frames that are measured against it are skipped");
  for (const frame of resolved.frames) {
    for (const [i, scan] of frame.scans.entries()) {
      const merges = frame.merged && frame.scans.length > 2 ? "The frame is merged from its other scans" : undefined;
      const alone = frame.merged ? "The frame is made of its other scan alone" : "The frame is skipped";
      const what = frame.channels ? "Two colours are no picture: the frame is skipped" : (merges ?? alone);
      await check(scan, scanPath(roll, frame.id, i), what);
    }
    const own = resolved.originOf(frame.id, ["light", "blank"]);
    if (own?.level === "frame") await checkBlanks(frame.light, own.path, "The frame is skipped");
  }
  return { missing, problems };
}

/** A warning at each printer's profile that the recipe itself states and that is not there. */
async function checkProfiles(roll: RecipeDocument, files: RecipeFiles): Promise<Problem[]> {
  const outputs = field(roll.value, "output");
  const problems: Problem[] = [];
  for (const [i, output] of (Array.isArray(outputs) ? (outputs as readonly unknown[]) : []).entries()) {
    const written = field(field(output, "print"), "profile");
    const found = typeof written === "string" ? resolveInside(files.roots, roll.file, written).path : undefined;
    if (found === undefined || (await files.exists(found))) continue;
    const path = ["output", i, "print", "profile"];
    const message = `There is no ${found}. Sheets cannot be printed until it is there; the path is relative to this file.`;
    problems.push(problem("missing-profile", roll.rangeOf(path) ?? [0, 0], path, message, { data: { file: found } }));
  }
  return problems;
}

/** An error at the pattern that gives two frames one file, or at the stock that states it. */
function checkNames(roll: RecipeDocument, resolved: ResolvedRoll): Problem[] {
  const inRoll = field(roll.value, "output") !== undefined;
  return sharedNames(resolved).map(({ output, frames: [first, second], file }) => {
    const items = inRoll ? (field(roll.value, "output") as readonly unknown[]) : [];
    const at = items.findIndex((item) => field(item, "name") === output.name);
    const path = inRoll ? ["output", at, "file"] : ["stock"];
    const whose = inRoll ? "" : ", which the stock states";
    const remedy = output.file?.includes("{frame}")
      ? `Put a character such as - around {frame} in the pattern${whose}`
      : `Put {frame} into the pattern${whose}`;
    const message = `Frames ${first} and ${second} would both be written to ${file}. ${remedy}.`;
    return problem("same-file-name", roll.rangeOf(path) ?? [0, 0], path, message);
  });
}

function field(value: unknown, key: string): unknown {
  return typeof value === "object" && value !== null && Object.hasOwn(value, key)
    ? (value as Record<string, unknown>)[key]
    : undefined;
}
