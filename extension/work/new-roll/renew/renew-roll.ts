/** Renews the automatic values of a roll: finds them again on its scans, and keeps what a person changed since. */
import { dirname, resolve } from "node:path";
import type { CommentInsert } from "../../../recipe/edit/compose.ts";
import { applyEdits } from "../../../recipe/edit/model.ts";
import { hasErrors } from "../../../recipe/problems.ts";
import type { LoadedRoll } from "../../../recipe/resolve/workspace.ts";
import type { Value } from "../../../recipe/yaml/values.ts";
import type { Workspace } from "../../files/workspace.ts";
import type { Pool } from "../../pool/pool.ts";
import { measureRoll } from "../new-roll.ts";
import { type NewRollOptions, StartError, type StartHooks } from "../new-roll-options.ts";
import { rollHead } from "../recipe/compose-roll.ts";
import { rollContent } from "../recipe/roll-text.ts";
import type { StartedRoll } from "../started-roll.ts";
import { type RollContent, unitDigest, unitValues, valueAt, valueDigest } from "./automatic-values.ts";
import { isFree, planRenewal, type RenewalPlan, type RenewalRequest, type UnitState } from "./renewal-plan.ts";

/** Why a value is kept. What would have been found is known only where it does not depend on what is kept. */
export type KeptReason = "changed" | "unrecorded" | "not found";

export interface RenewalItem {
  readonly state: UnitState;
  /** In the order of the unit's paths. */
  readonly before: readonly (Value | undefined)[];
  readonly after: readonly (Value | undefined)[];
  /** Digest of what was found; undefined where nothing is stated any more. */
  readonly digest?: string;
}

export interface KeptItem extends RenewalItem {
  readonly reason: KeptReason;
}

export interface Renewal {
  readonly renewed: readonly RenewalItem[];
  readonly kept: readonly KeptItem[];
  /** Values that were found as they are: only their digests are written. */
  readonly same: readonly RenewalItem[];
  readonly comments: readonly CommentInsert[];
  readonly warnings: readonly string[];
  /** Scans that could not be read, with the reason. */
  readonly unreadable: StartedRoll["unreadable"];
}

/**
 * Measures the scans of a roll again. Nothing is written.
 * @param roll as loaded, without errors
 * @throws StartError where the recipe has errors or its scans cannot be read
 */
export async function renewRoll(
  { roll, stock, resolved, problems }: LoadedRoll,
  request: RenewalRequest,
  workspace: Workspace,
  pool: Pool,
  hooks: StartHooks = {},
): Promise<Renewal> {
  const broken = problems.find(({ severity }) => severity === "error");
  if (!resolved || hasErrors(problems))
    throw new StartError(`The recipe has an error: ${broken?.message ?? "it cannot be read."} Fix it first.`);
  const coloured = resolved.frames.find(({ channels }) => channels);
  if (coloured)
    throw new StartError(
      `Frame ${coloured.id} was scanned in three-colour light, and values of such rolls are not measured again. Change them by hand.`,
    );
  const plan = planRenewal(roll, stock, request);
  const file = workspace.absolute(roll.file);
  const options: NewRollOptions = {
    folder: workspace.absolute(resolved.scans === "" ? "." : resolved.scans),
    roll: file,
    film: resolved.film,
    ...(stock ? { stock: resolve(dirname(file), workspace.absolute(stock.file)) } : {}),
    ...(resolved.format ? { format: resolved.format } : {}),
    ...(plan.blank === undefined ? {} : { blank: plan.blank }),
  };
  const { started, sources } = await measureRoll(options, workspace, pool, hooks, plan.known);
  const content = rollContent(rollHead(sources, options), started);
  const { renewed, kept, same } = itemsOf(roll.value, plan, content, request.overwrite);
  return {
    renewed,
    kept,
    same,
    comments: content.comments,
    warnings: [...started.warnings, ...hints(renewed, plan)],
    unreadable: started.unreadable,
  };
}

function itemsOf(
  recipe: unknown,
  { states }: RenewalPlan,
  content: RollContent,
  overwrite: boolean,
): Pick<Renewal, "renewed" | "kept" | "same"> {
  const found = applyEdits("roll", {}, content.values);
  const [renewed, kept, same]: [RenewalItem[], KeptItem[], RenewalItem[]] = [[], [], []];
  for (const state of states) {
    const { unit, at, frame } = state;
    if (frame !== undefined && valueAt(found, ["frames", frame]) === undefined) continue;
    const before = unitValues(recipe, at, unit);
    const after = unitValues(found, at, unit);
    const digest = unitDigest(found, at, unit, content.comments);
    const item = { state, before, after, ...(digest === undefined ? {} : { digest }) };
    const [was, is] = [valueDigest(before), valueDigest(after)];
    const reason = state.status === "changed" ? "changed" : "unrecorded";
    if (!overwrite && !isFree(state)) {
      // What was taken as given has not been found again.
      const given = unit.group === "base" || unit.group === "area" || unit.name === "curve";
      if (!given && was !== undefined && (was === is || isNear(before, after))) same.push({ ...item, digest: was });
      else kept.push(given ? { ...item, after: before.map(() => undefined), reason } : { ...item, reason });
    } else if (is === undefined && unit.stays) {
      const isMissed = was !== undefined && (unit.group === "base" || unit.group === "area");
      if (isMissed) kept.push({ ...item, reason: "not found" });
    } else if (was !== is && !isNear(before, after)) renewed.push(item);
    else if (was !== undefined && state.status !== "automatic") same.push({ ...item, digest: was });
  }
  return { renewed, kept, same };
}

/** Difference of numbers that nobody sees: rounding of what is kept, on the way through a fit. */
const INVISIBLE = 5e-4;

/** Whether two values differ by rounding only. */
function isNear(a: unknown, b: unknown): boolean {
  if (typeof a === "number" && typeof b === "number") return Math.abs(a - b) <= INVISIBLE;
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return a === b;
  const [own, other] = [Object.entries(a), Object.entries(b)];
  return own.length === other.length && own.every(([key, value]) => isNear(value, valueAt(b, [key])));
}

/** Differences of the base from which a curve that was fitted to the old one shows a cast, D. */
const VISIBLE_BASE = 0.01;

/** What else should be renewed with what is. */
function hints(renewed: readonly RenewalItem[], { known }: RenewalPlan): string[] {
  const base = renewed.find(({ state }) => state.unit.name === "base");
  if (!base || !known.ownCurve) return [];
  const [was, is] = [base.before, base.after].map(([value]) => (valueAt(value, ["density"]) ?? []) as number[]);
  const moved = Math.max(...is.map((v, c) => Math.abs(v - (was[c] ?? Infinity))));
  if (moved < VISIBLE_BASE) return [];
  return ["The curve was fitted to the earlier base and is kept: renew the filtration too, or check the colours."];
}
