/** Digests at the copy stand: values that the session writes are automatic, what a person changed is not. */
import { describe, expect, it } from "vitest";
import { applyEdits } from "../../../../../extension/recipe/edit/model.ts";
import type { ValueEdit } from "../../../../../extension/recipe/path.ts";
import { parseRecipe } from "../../../../../extension/recipe/problems/document.ts";
import type { Value } from "../../../../../extension/recipe/yaml/values.ts";
import { digestEdits } from "../../../../../extension/work/copy-stand/recipe/digest-edits.ts";
import { planRenewal } from "../../../../../extension/work/new-roll/renew/renewal-plan.ts";

const AREA = { left: 0.05, top: 0.06, width: 0.9, height: 0.88, tilt: 0 };
const BASE = { density: [0.3, 0.6, 0.8] };

/** A recipe as a session's edits leave it, digests included. */
const grown = (before: unknown, edits: readonly ValueEdit[]): Record<string, unknown> =>
  applyEdits("roll", structuredClone(before) as Value, [...edits, ...digestEdits(before, edits)]) as Record<
    string,
    unknown
  >;

/** What `new --update` thinks of the values, by name. */
function statuses(recipe: unknown): Record<string, string> {
  const document = parseRecipe(JSON.stringify(recipe), { file: "r.roll.yaml" as never, kind: "roll" });
  const { states } = planRenewal(document, undefined, {
    groups: ["base", "filtration", "exposure", "area"],
    overwrite: false,
  });
  return Object.fromEntries(
    states
      .filter(({ status }) => status !== "absent")
      .map(({ unit, frame, status }) => [frame === undefined ? unit.name : `${frame} ${unit.name}`, status]),
  );
}

const EMPTY = { version: 1 };
const first = grown(EMPTY, [
  { path: ["negative", "base"], value: BASE },
  { path: ["positive", "contrast"], value: 1.4 },
  { path: ["frames", "01", "scan"], value: "A1.dng" },
  { path: ["frames", "01", "area"], value: AREA },
  { path: ["frames", "01", "positive"], value: { exposure: 0.2 } },
]);

describe("digests of a session's values", () => {
  it("let all of them be renewed", () => {
    expect(statuses(first)).toEqual({
      base: "automatic",
      contrast: "automatic",
      "01 area": "automatic",
      "01 exposure": "automatic",
    });
  });

  it("follow what the session writes again", () => {
    const later = grown(first, [
      { path: ["frames", "01", "positive", "exposure"], value: 0.4 },
      { path: ["negative", "base"], value: { density: [0.31, 0.61, 0.81] } },
    ]);
    expect(statuses(later)).toEqual(statuses(first));
  });

  it("keep a value that a person changed a person's, also when the session moves it", () => {
    const cropped = applyEdits("roll", structuredClone(first) as Value, [
      { path: ["frames", "01", "area"], value: { ...AREA, left: 0.2, width: 0.7 } },
    ]);
    expect(statuses(cropped)["01 area"]).toBe("changed");
    const taken = grown(cropped, [
      { path: ["frames", "01", "scan"], value: "A2.dng" },
      { path: ["frames", "01", "area"], value: { ...AREA, left: 0.22, width: 0.7 } },
    ]);
    expect(statuses(taken)).toMatchObject({ "01 area": "changed", "01 exposure": "automatic" });
  });

  it("go with a frame's scan when it is renamed or replaced", () => {
    const renamed = grown(first, [{ path: ["frames", "01", "scan"], value: "pier.dng" }]);
    expect(statuses(renamed)).toEqual(statuses(first));
    expect(Object.keys((renamed.automatic as { scans: object }).scans)).toEqual(["pier.dng"]);
    const replaced = grown(first, [
      { path: ["frames", "01", "scan"], value: "A2.dng" },
      { path: ["frames", "01", "area"], value: { ...AREA, left: 0.06 } },
    ]);
    expect(statuses(replaced)).toEqual(statuses(first));
  });

  it("are not invented for values from before there were digests", () => {
    const old = { version: 1, frames: { "01": { scan: "A1.dng", area: AREA } } };
    const later = grown(old, [{ path: ["frames", "01", "area"], value: { ...AREA, left: 0.06 } }]);
    expect(later).not.toHaveProperty("automatic");
  });
});
