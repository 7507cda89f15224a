/** Rolls whose camera writes the marks of the usual series and opens for powers of two: the base tells it. */
import { rmSync } from "node:fs";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { loadRoll } from "../../../../../extension/recipe/resolve/workspace.ts";
import { openWorkspace } from "../../../../../extension/work/files/workspace.ts";
import { CAMERA_A, PANEL } from "../../../../witness/camera/cameras.ts";
import { cameraDensity } from "../../../../witness/camera/negative.ts";
import { NORTHLIGHT_400 } from "../../../../witness/film/stocks.ts";
import { type RollPlan, startIn, writeRoll } from "../rolls.ts";

const folders: string[] = [];
const roll = (plan: RollPlan): string => {
  const folder = writeRoll(plan);
  folders.push(folder);
  return folder;
};
afterAll(() => folders.forEach((folder) => rmSync(folder, { recursive: true })));

const truth = cameraDensity(CAMERA_A, PANEL, NORTHLIGHT_400, [0, 0, 0]);
/** Greatest error of a base, D. */
const errorOf = (density: readonly number[]): number => Math.max(...density.map((d, c) => Math.abs(d - truth[c])));

/** One subject at three shutter times: the same picture three times over. */
const shots = [0, 1, 2].map((shorter) => ({ of: "portrait" as const, shorter }));

describe("shutter times", () => {
  it("are resolved from bases at different times, so that base and brightness come out right", async () => {
    const folder = roll({ marked: true, shots });
    const bare = { stock: undefined, format: "135" } as const;
    const started = await startIn(folder, { ...bare, roll: join(folder, "r.roll.yaml") });
    expect(started.shutter).toMatchObject({ times: "nominal", from: "scans" });
    expect(started.text).toMatch(/# Measured: by the marked series.*\n(?: {2}# .*\n)* {2}times: nominal\n/);
    expect(errorOf(started.base!.density)).toBeLessThan(0.005);
    expect(started.base!.spread).toBeLessThan(0.006);
    const { resolved, problems } = (await loadRoll("r.roll.yaml", openWorkspace(folder)))!;
    expect(problems).toEqual([]);
    expect(resolved!.shared.light.times).toBe("nominal");
  }, 60_000);

  it("stay as written where the camera writes what it does", async () => {
    const started = await startIn(roll({ shots }));
    expect(started.shutter).toMatchObject({ times: "written" });
    expect(started.text).not.toContain("times:");
    expect(errorOf(started.base!.density)).toBeLessThan(0.005);
  }, 60_000);

  it("are resolved from the stock's base where film has one time and the blank another", async () => {
    // Of the thirds of a stop, one differs enough from the blank's.
    const errors: number[] = [];
    const found: string[] = [];
    for (const shorter of [0, 1, 2]) {
      const { shutter, base } = await startIn(roll({ marked: true, shots: [{ of: "street", shorter }] }));
      errors.push(errorOf(base!.density));
      if (shutter) found.push(`${shutter.times} ${shutter.from}`);
    }
    expect(Math.max(...errors)).toBeLessThan(0.008);
    expect(new Set(found)).toEqual(new Set(["nominal stock"]));
  }, 90_000);
});
