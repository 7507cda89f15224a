/** A review: what changed between two states, in words and, for the frames that look different, in pictures. */
import { errorText } from "../../scans/files/system-errors.ts";
import { statSync } from "node:fs";
import type { FrameDiff } from "../../recipe/diff/diff.ts";
import { pictureKey, sameFraming } from "../../recipe/diff/pictures.ts";
import type { Fingerprint } from "../../recipe/generated/types.ts";
import { referencesOf } from "../../recipe/resolve/channels.ts";
import type { ResolvedFrame } from "../../recipe/resolve/resolve.ts";
import {
  hasNoVisibleChange,
  impactOf,
  type Review,
  type ReviewFrame,
  type ReviewRecipe,
  type ReviewSide,
} from "../../review-report.ts";
import { eachLimited } from "../pool/each-limited.ts";
import { partsOf } from "../frame/join/frame-join.ts";
import { framePath } from "../frame/frame-path.ts";
import { frameSetup, type LightTable, lightTable } from "../frame/frame-setup.ts";
import type { FrameState } from "./compare-frame.ts";
import type { Pool } from "../pool/pool.ts";
import type { RenderHooks } from "../render/render-roll.ts";
import { type Workspace, WorkspaceError } from "../files/workspace.ts";
import { type ChangedRecipe, findChanges } from "./find-changes.ts";
import { reportChange } from "./report-change.ts";
import type { History } from "./history.ts";
import type { State } from "./git/revisions.ts";
import { contentDiffersJob } from "../files/jobs.ts";
import { compareFrameJob } from "./jobs.ts";

export interface ReviewOptions {
  /** Recipes, by their paths from the root; all where not given. */
  readonly only?: readonly string[];
  /** Longest side of the pictures in pixels; 0 for a review in words alone. */
  readonly long: number;
  /** An earlier review of the same scans: what it drew is not drawn again. */
  readonly earlier?: Pick<MadeReview, "pictures">;
}

/** What was drawn of each frame, by the two states that were compared. */
type Pictures = ReadonlyMap<string, Partial<ReviewFrame>>;

/** A review, and the recipes as they were read: for whoever wants to edit them. */
export interface MadeReview {
  readonly review: Review;
  readonly recipes: readonly ChangedRecipe[];
  readonly pictures: Pictures;
}

/**
 * Scans come from the working tree. Only frames whose resolved recipe differs are opened; what cannot be drawn is said
 * with the frame, and the others go on.
 */
export async function makeReview(
  history: History,
  workspace: Workspace,
  pool: Pool,
  options: ReviewOptions,
  hooks: RenderHooks = {},
): Promise<MadeReview> {
  const recipes = await findChanges(history.snapshots.before, history.snapshots.after, options.only);
  const requests = recipes.flatMap((recipe) =>
    recipe.kind === "roll" && options.long > 0
      ? recipe.frames.filter((frame) => frame.looksDifferent).map((frame) => ({ recipe, frame }))
      : [],
  );
  const drawer: Drawer = {
    history,
    workspace,
    pool,
    long: options.long,
    // One table for both states: a blank is measured once. Scans that are not what they were are told, not refused.
    lights: lightTable({ fingerprints: {} }, workspace, pool, hooks.signal),
    signal: hooks.signal,
  };
  let done = 0;
  const pictures = new Map<string, Partial<ReviewFrame>>();
  await eachLimited(requests, pool.workers + 1, async ({ recipe, frame }) => {
    const key = statesKey(recipe, frame);
    pictures.set(key, options.earlier?.pictures.get(key) ?? (await drawFrame(drawer, recipe, frame)));
    hooks.onProgress?.(++done, requests.length, frame.id);
  });
  const drawn: Drawn = (recipe, frame) => pictures.get(statesKey(recipe, frame));
  return { review: reportOf(history, recipes, drawn, options.long > 0), recipes, pictures };
}

/**
 * The review of other texts in the words of these, without drawing anything: frames keep their earlier pictures, which
 * count as pending where the frame's recipe is another now.
 */
export async function rewordReview(
  history: History,
  { review, pictures }: MadeReview,
  only?: readonly string[],
): Promise<MadeReview> {
  const recipes = await findChanges(history.snapshots.before, history.snapshots.after, only);
  const drawn: Drawn = (recipe, frame) => {
    const known = pictures.get(statesKey(recipe, frame));
    if (known || !frame.looksDifferent) return known;
    const old = review.recipes.find(({ file }) => file === recipe.file)?.frames.find(({ id }) => id === frame.id);
    const { before, after, map, difference, notes } = old ?? {};
    return { before, after, map, difference, notes: notes ?? [], pending: true };
  };
  return { review: reportOf(history, recipes, drawn, review.rendered), recipes, pictures };
}

/** What was drawn of a frame of a recipe. */
type Drawn = (recipe: ChangedRecipe, frame: FrameDiff) => Partial<ReviewFrame> | undefined;

/** Equal for frames whose two states are drawn alike. */
const statesKey = ({ file }: ChangedRecipe, { id, before, after }: FrameDiff): string =>
  JSON.stringify([file, id, before && [before.skip, pictureKey(before)], after && [after.skip, pictureKey(after)]]);

function reportOf(history: History, recipes: readonly ChangedRecipe[], drawn: Drawn, rendered: boolean): Review {
  const reports = recipes.map((recipe) => reportRecipe(recipe, drawn));
  const { before, after } = history.states;
  return {
    before: sideOf(before),
    after: sideOf(after),
    recipes: reports.map((recipe) => withVisibleImpact(recipe, recipes, reports)).toSorted(byImpact),
    rendered,
  };
}

/** A stock's impact counts the frames whose change can be seen, as far as they were measured. */
function withVisibleImpact(
  report: ReviewRecipe,
  recipes: readonly ChangedRecipe[],
  reports: readonly ReviewRecipe[],
): ReviewRecipe {
  const reach = recipes.find(({ file }) => file === report.file)?.impact ?? [];
  const impact = reach.map(({ frames, ...roll }) => {
    const measured = reports.find(({ file }) => file === roll.file)?.frames ?? [];
    const unseen = new Set(measured.filter(hasNoVisibleChange).map(({ id }) => id));
    return { ...roll, frames: frames.filter((id) => !unseen.has(id)).length };
  });
  return { ...report, impact };
}

interface Drawer {
  readonly history: History;
  readonly workspace: Workspace;
  readonly pool: Pool;
  readonly long: number;
  readonly lights: LightTable;
  readonly signal?: AbortSignal;
}

async function drawFrame(drawer: Drawer, recipe: ChangedRecipe, diff: FrameDiff): Promise<Partial<ReviewFrame>> {
  const { pool, long, signal } = drawer;
  const notes = await scanNotes(drawer, recipe, diff);
  const state = async (frame: ResolvedFrame | undefined, when: string): Promise<FrameState | undefined> => {
    if (!frame || frame.skip) return undefined;
    try {
      const path = pathOf(drawer.workspace, frame, diff.after);
      const { light, warnings } = await drawer.lights.of(frame);
      notes.push(...warnings);
      return {
        path,
        setup: { ...frameSetup(frame, light), ...partsOf({ fingerprints: {} }, frame, drawer.workspace) },
      };
    } catch (error) {
      if (signal?.aborted) throw error;
      notes.push(`No picture of ${when}: ${errorText(error)}`);
      return undefined;
    }
  };
  const [before, after] = [await state(diff.before, "before"), await state(diff.after, "now")];
  if (!before && !after) return { notes: unique(notes) };
  try {
    const { warnings, ...pictures } = await pool.run(compareFrameJob, { before, after, long }, { signal });
    return { ...pictures, notes: unique([...notes, ...warnings]) };
  } catch (error) {
    if (signal?.aborted) throw error;
    return { notes: unique([...notes, `No picture: ${errorText(error)}`]) };
  }
}

/** Where a frame's scan lies today: recipes that were moved since are followed. */
function pathOf(workspace: Workspace, frame: ResolvedFrame, now: ResolvedFrame | undefined): string {
  // A joined or merged frame names its scans by itself.
  if (frame.merged) return framePath(frame, workspace);
  if (frame.scans.length > 1) return workspace.absolute(frame.scans[0].path);
  const path = framePath(frame, workspace);
  if (exists(path) || !now || now.scans[0]?.name !== frame.scans[0]?.name) return path;
  const moved = framePath(now, workspace);
  return exists(moved) ? moved : path;
}

/** Bytes of a file; undefined where it is not there, or lies outside. */
function sizeOf(workspace: Workspace, path: string): number | undefined {
  try {
    return statSync(workspace.absolute(path), { throwIfNoEntry: false })?.size;
  } catch (error) {
    if (error instanceof WorkspaceError) return undefined; // whoever draws the frame says so
    throw error;
  }
}

const exists = (path: string): boolean => statSync(path, { throwIfNoEntry: false })?.isFile() ?? false;

/** Scans that are not the files they were, as far as git or a lock can tell. */
async function scanNotes(drawer: Drawer, recipe: ChangedRecipe, { before, after }: FrameDiff): Promise<string[]> {
  const { workspace } = drawer;
  const notes: string[] = [];
  const frame = after ?? before;
  for (const scan of frame ? [...frame.scans, ...referencesOf(frame)] : []) {
    if (await contentChanged(drawer, scan.path))
      notes.push(`The scan ${scan.name} itself changed; both pictures are drawn from the file that is there now.`);
    const [was, is] = [lockOf(recipe.before, scan.name), lockOf(recipe.after, scan.name)];
    if (was && is && was.sha256 !== is.sha256)
      notes.push(
        `The recipe was locked to another ${scan.name}; both pictures are drawn from the file that is there now.`,
      );
    const size = sizeOf(workspace, scan.path);
    const lock = is ?? was;
    if (size !== undefined && lock && size !== lock.size)
      notes.push(`${scan.name} in the working tree is not the file that the recipe was locked to.`);
  }
  return notes;
}

/** Whether a file that git keeps has another content in the second state. Files of the working tree are read. */
async function contentChanged({ history, workspace, pool, signal }: Drawer, file: string): Promise<boolean> {
  const { states, snapshots } = history;
  const was = snapshots.before.contents.get(file);
  if (was === undefined) return false;
  if (states.after.kind !== "disk") return (snapshots.after.contents.get(file) ?? was) !== was;
  try {
    return await pool.run(contentDiffersJob, { path: workspace.absolute(file), content: was }, { signal });
  } catch (error) {
    if (signal?.aborted) throw error;
    return false; // missing or outside: whoever draws the frame reports it
  }
}

const lockOf = (side: ChangedRecipe["before"], name: string): Fingerprint | undefined =>
  side && Object.hasOwn(side.resolved.fingerprints, name) ? side.resolved.fingerprints[name] : undefined;

function reportRecipe(recipe: ChangedRecipe, drawn: Drawn): ReviewRecipe {
  const { kind, file, was, status, after, before, formattingOnly, problems } = recipe;
  const now = (after ?? before)?.resolved;
  const frames = recipe.frames.map((diff): ReviewFrame => {
    const frame = (diff.after ?? diff.before) as ResolvedFrame;
    return {
      id: diff.id,
      ...(diff.before && diff.before.id !== diff.id ? { was: diff.before.id } : {}),
      ...(frame.title === undefined ? {} : { title: frame.title }),
      status: diff.status,
      looksDifferent: diff.looksDifferent,
      reframed: diff.before !== undefined && diff.after !== undefined && !sameFraming(diff.before, diff.after),
      notes: [],
      ...drawn(recipe, diff),
    };
  });
  return {
    kind,
    file,
    ...(was === undefined ? {} : { was }),
    ...(now?.title === undefined ? {} : { title: now.title }),
    status,
    formattingOnly,
    changes: recipe.changes.map((change, i) => reportChange(change, `${file}#${i}`, after)),
    frames: frames.toSorted((a, b) => compare(impactOf(b), impactOf(a))),
    of: after?.resolved.frames.length ?? 0,
    impact: [],
    problems,
  };
}

/** Stocks first, since what they change comes back in the rolls; then the greatest impact. */
function byImpact(a: ReviewRecipe, b: ReviewRecipe): number {
  if (a.kind !== b.kind) return a.kind === "stock" ? -1 : 1;
  const most = ({ frames, impact }: ReviewRecipe): number =>
    Math.max(-1, ...frames.map(impactOf), ...impact.map((roll) => roll.frames));
  return compare(most(b), most(a));
}

/** Infinity − Infinity is not a number. */
const compare = (a: number, b: number): number => (a === b ? 0 : a - b);

const unique = (texts: readonly string[]): string[] => [...new Set(texts)];

function sideOf(state: State): ReviewSide {
  if (state.kind !== "commit") return { label: state.label };
  return { label: state.label, commit: state.commit, subject: state.subject };
}
