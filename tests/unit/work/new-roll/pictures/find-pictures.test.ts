/**
 * Two frames of a roll into which light leaks along one side: the light clears the margin around the picture, so each scan
 * alone shows a rectangle that reaches to the holder. The roll's other frames agree on theirs.
 *
 * Sets. Tune: limits were set by these rolls. Held out: other subjects, sides and seeds that nothing was set by.
 */
import { rmSync } from "node:fs";
import { afterAll, describe, expect, it } from "vitest";
import type { Side } from "../../../../../extension/engine/types.ts";
import { loadRoll } from "../../../../../extension/recipe/resolve/workspace.ts";
import { openWorkspace } from "../../../../../extension/work/files/workspace.ts";
import { surveyRoll } from "../../../../../extension/work/survey/survey-roll.ts";
import type { SubjectName } from "../../../../witness/scenes/subjects.ts";
import { poolHere, startIn, writeRoll } from "../rolls.ts";

const folders: string[] = [];
afterAll(() => folders.forEach((folder) => rmSync(folder, { recursive: true })));

interface LeakingRoll {
  readonly subjects: readonly SubjectName[];
  readonly seed: number;
  /** Side and strength by the frame's place in the roll. */
  readonly leaks: Readonly<Record<number, readonly [side: Side, strength: number, reach: number]>>;
}

const SETS: readonly (readonly [name: string, rolls: readonly LeakingRoll[]])[] = [
  [
    "tune",
    [
      {
        subjects: ["portrait", "street", "table", "portrait", "street", "table"],
        seed: 3,
        leaks: { 1: ["right", 0.1, 0.05], 4: ["left", 0.2, 0.06] },
      },
      {
        subjects: ["table", "portrait", "street", "table", "portrait", "street"],
        seed: 19,
        leaks: { 0: ["top", 0.05, 0.03], 3: ["bottom", 0.2, 0.06] },
      },
    ],
  ],
  [
    "held out",
    [
      {
        subjects: ["street", "street", "portrait", "table", "table", "portrait"],
        seed: 401,
        leaks: { 2: ["left", 0.07, 0.04], 5: ["bottom", 0.12, 0.05] },
      },
      {
        subjects: ["portrait", "table", "table", "street", "portrait", "street"],
        seed: 557,
        leaks: { 1: ["top", 0.15, 0.05], 2: ["right", 0.3, 0.05] },
      },
    ],
  ],
];

describe.each(SETS)("light that leaks into two frames of a roll: %s", (_, rolls) => {
  it.each(rolls)(
    "rectangle and side are found with seed $seed",
    async ({ subjects, seed, leaks }) => {
      const folder = writeRoll({
        seed,
        // Enough pixels for the narrow margins above and below 135 film's pictures.
        size: { width: 1140, height: 760 },
        leader: true,
        shots: subjects.map((of, i) => {
          const [side, strength, reach] = leaks[i] ?? [];
          return { of, tilt: 0, ...(side ? { leak: { side, strength: strength!, reach: reach! } } : {}) };
        }),
      });
      folders.push(folder);
      const areas = (await startIn(folder)).frames.map(({ found }) => found!.area);
      const [usual] = areas.filter((_area, i) => !(i in leaks));
      // The witness lays each picture 0.002 of the width farther to the right.
      for (const area of areas) {
        expect(Math.abs(area.width - usual.width)).toBeLessThan(0.01);
        expect(Math.abs(area.height - usual.height)).toBeLessThan(0.01);
        expect(Math.abs(area.left - usual.left)).toBeLessThan(0.015);
        expect(Math.abs(area.top - usual.top)).toBeLessThan(0.01);
      }
      const workspace = openWorkspace(folder);
      const { resolved } = (await loadRoll("r.roll.yaml", workspace))!;
      const { findings } = await surveyRoll(resolved!, workspace, poolHere);
      const leaking = findings.filter(({ code }) => code === "light-leak");
      expect(
        leaking.map(({ place, message }) => [Number(place.frame) - 1, /along the (\w+)/.exec(message)?.[1]]),
      ).toEqual(Object.entries(leaks).map(([i, [side]]) => [Number(i), side]));
    },
    600_000,
  );
});
