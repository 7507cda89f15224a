/** What a begun roll says of where its unmix comes from. */
import { describe, expect, it } from "vitest";
import { unmixOf } from "../../../../../extension/engine/calibrate/camera-unmix/index.ts";
import { parseRecipe } from "../../../../../extension/recipe/problems/document.ts";
import { formatRecipe } from "../../../../../extension/recipe/edit/layout/format.ts";
import { type RollHead, rollText } from "../../../../../extension/work/new-roll/recipe/roll-text.ts";
import type { StartedRoll } from "../../../../../extension/work/new-roll/started-roll.ts";

const none = { cyan: 0, magenta: 0, yellow: 0 };
const head: RollHead = { title: "Pier", scans: "scans", mirror: false, turn: 0, filtration: none };
const started: Omit<StartedRoll, "text"> = {
  leaders: [],
  duplicates: [],
  unreadable: [],
  balance: { filtration: none, fromPictures: { cyan: 0, yellow: 0 }, followed: 0, exposure: [] },
  frames: [{ id: "01", scans: ["S0001.dng"], unused: [], exposure: 0 }],
  film: { film: "colour-negative", certainty: 1, from: "stated" },
  advice: [],
  warnings: [],
};

/** Comment lines of the unmix as one. */
function commentFor(unmix: StartedRoll["unmix"]): string | undefined {
  const text = rollText({ ...head, unmix: unmix && unmixOf(undefined).matrix }, { ...started, unmix });
  expect(formatRecipe(text, { kind: "roll" })).toBe(text);
  expect(parseRecipe(text, { file: "pier.roll.yaml", kind: "roll" }).problems).toEqual([]);
  const lines = /((?: {2}# .*\n)+) {2}unmix: \[/.exec(text)?.[1];
  return lines?.replace(/\n? {2}# /g, " ").trim();
}

describe("the comment at the unmix of a begun roll", () => {
  const camera = "Fernhill A24";
  it("says which of three it is", () => {
    expect(commentFor({ camera, from: "model" })).toBe(
      "Assumed, for the stock has no unmix: for scans by Fernhill A24, from what is published of its sensitivities.",
    );
    expect(commentFor({ camera, from: "colour matrix" })).toBe(
      "Assumed, for the stock has no unmix: worked out from the colour matrix of Fernhill A24, of which no more is known.",
    );
    expect(commentFor({ camera, from: "generic" })).toBe(
      "Assumed, for the stock has no unmix: for a camera of the usual kind, for nothing is known of Fernhill A24.",
    );
  });

  it("is not there where the stock states an unmix", () => expect(commentFor(undefined)).toBeUndefined());
});
