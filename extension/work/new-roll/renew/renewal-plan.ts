/** Which automatic values of a recipe may be renewed, and what is taken as given while they are found again. */
import { placedFalloff } from "../../frame/frame-setup.ts";
import type { RecipePath } from "../../../recipe/path.ts";
import { parseRecipe, type RecipeDocument } from "../../../recipe/problems/document.ts";
import { applyChanges, editRecipe } from "../../../recipe/edit/edit.ts";
import { type ResolvedRoll, resolveRoll } from "../../../recipe/resolve/resolve.ts";
import { statedLook } from "../film/stock-look.ts";
import type { KnownFrame, KnownRoll } from "../known-roll.ts";
import {
  type AutomaticUnit,
  digestKey,
  FRAME_UNITS,
  type Group,
  ROLL_UNITS,
  unitValues,
  valueAt,
  valueDigest,
} from "./automatic-values.ts";

/** What the recipe tells of a unit. Unrecorded: a value without a digest, from before digests were written or by hand. */
export type UnitStatus = "automatic" | "absent" | "changed" | "unrecorded";

export interface UnitState {
  readonly unit: AutomaticUnit;
  /** The roll ([]) or a frame. */
  readonly at: RecipePath;
  readonly frame?: string;
  readonly status: UnitStatus;
  /** Where its digest is filed. */
  readonly digestPath: RecipePath;
  readonly digest?: string;
}

export interface RenewalPlan {
  /** Units of the groups that are asked for. */
  readonly states: readonly UnitState[];
  readonly known: KnownRoll;
  /** The blank that the recipe names. */
  readonly blank?: string;
}

export interface RenewalRequest {
  readonly groups: readonly Group[];
  /** Whether values that a person changed are renewed as well. */
  readonly overwrite: boolean;
}

/** Whether a unit may be renewed without losing what a person did. */
export const isFree = ({ status }: UnitState): boolean => status === "automatic" || status === "absent";

export function planRenewal(
  roll: RecipeDocument,
  stock: RecipeDocument | undefined,
  { groups, overwrite }: RenewalRequest,
): RenewalPlan {
  const states = unitStates(roll.value).filter(({ unit }) => groups.includes(unit.group));
  const renewed = states.filter((state) => overwrite || isFree(state));
  const base = renewed.some(({ unit }) => unit.name === "base");
  const resolved = resolveRoll(withoutUnits(roll, renewed), stock);
  const { shared } = resolved;
  const isRenewed = (name: string, frame?: string): boolean =>
    renewed.some((state) => state.unit.name === name && state.frame === frame);
  const levelOf = (key: string): string | undefined => resolved.originOf(undefined, ["negative", key])?.level;
  const full = resolveRoll(roll, stock);
  const blank = full.shared.light.blank?.name;
  return {
    // A base that is kept was read without the blank that has come since.
    states: states.filter(({ unit }) => unit.name !== "blank" || base),
    known: {
      stock: { ...statedLook(resolved), statedFilm: resolved.film },
      ownCurve: levelOf("curve") === "roll" || levelOf("gamma") === "roll",
      hasBlank: blank !== undefined || base,
      ...(isRenewed("times") ? {} : { times: shared.light.times ?? "written" }),
      ...(isRenewed("flare") ? {} : { flare: shared.light.flare }),
      ...(base ? {} : { base: shared.look.base }),
      ...(shared.light.lens ? { lens: shared.light.lens } : {}),
      ...placedFalloff(shared.light, base ? {} : shared.base),
      frames: full.frames.filter((f) => f.scans.length > 0).map((f) => knownFrame(f, isRenewed("area", f.id))),
    },
    ...(blank === undefined ? {} : { blank }),
  };
}

function knownFrame(
  { id, scans, merged, join, area: place }: ResolvedRoll["frames"][number],
  findsArea: boolean,
): KnownFrame {
  return {
    id,
    scans: scans.map(({ name }) => name),
    ...(merged ? { merged } : {}),
    ...(join ? { places: join } : {}),
    ...(findsArea ? {} : { area: place }),
    place,
  };
}

function unitStates(recipe: unknown): UnitState[] {
  const frames = Object.keys((valueAt(recipe, ["frames"]) ?? {}) as object);
  const state = (unit: AutomaticUnit, at: RecipePath, digests: RecipePath, frame?: string): UnitState => {
    const digestPath = [...digests, unit.name];
    const digest = valueAt(recipe, digestPath) as string | undefined;
    const now = valueDigest(unitValues(recipe, at, unit));
    return {
      unit,
      at,
      digestPath,
      status: statusOf(now, digest),
      ...(frame === undefined ? {} : { frame }),
      ...(digest === undefined ? {} : { digest }),
    };
  };
  return [
    ...ROLL_UNITS.map((unit) => state(unit, [], ["automatic", "roll"])),
    ...frames.flatMap((id) => {
      const key = digestKey(recipe, id);
      if (key === undefined) return [];
      return FRAME_UNITS.map((unit) => state(unit, ["frames", id], ["automatic", "scans", key], id));
    }),
  ];
}

/** Frames whose crop is the one that was measured on the scan: nobody changed it since. */
export const measuredAreas = (recipe: unknown): ReadonlySet<string> =>
  new Set(
    unitStates(recipe).flatMap(({ unit, frame, status }) =>
      unit.name === "area" && status === "automatic" && frame !== undefined ? [frame] : [],
    ),
  );

function statusOf(now: string | undefined, recorded: string | undefined): UnitStatus {
  if (recorded === undefined) return now === undefined ? "absent" : "unrecorded";
  return recorded.split("-")[0] === now ? "automatic" : "changed";
}

/** The recipe as if the units had never been found. */
function withoutUnits(roll: RecipeDocument, states: readonly UnitState[]): RecipeDocument {
  const edits = states.flatMap(({ unit, at }) => {
    const values = unitValues(roll.value, at, unit);
    return unit.paths.flatMap((path, i) =>
      values[i] === undefined ? [] : [{ path: [...at, ...path], value: undefined }],
    );
  });
  // Blank and film stay: what the scans are measured against does not change by itself.
  const kept = edits.filter(({ path }) => path[1] !== "blank");
  const text = applyChanges(roll.text, editRecipe(roll.text, kept, { kind: "roll" }));
  return parseRecipe(text, { file: roll.file, kind: "roll" });
}
