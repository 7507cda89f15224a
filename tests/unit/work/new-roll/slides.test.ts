/** Rolls of slides: the black leader is no frame, and a night has a crop as its neighbours have. */
import { rmSync } from "node:fs";
import { afterEach, expect, it } from "vitest";
import { LANTERN_64 } from "../../../witness/film/stocks.ts";
import { startIn, writeRoll } from "./rolls.ts";

const folders: string[] = [];
afterEach(() => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
});

it("makes no frame of the black leader, and crops a night where the other slides lie", async () => {
  const shots = (["street", "portrait", "night", "meadow", "table"] as const).map((of) => ({ of, tilt: 0 }));
  const folder = writeRoll({ shots, stock: LANTERN_64, leader: true, seed: 41 });
  folders.push(folder);
  const started = await startIn(folder);
  expect(started.film).toMatchObject({ film: "slide" });
  expect(started.leaders).toEqual(["S0002.dng"]);
  expect(started.frames.flatMap((f) => f.scans)).toEqual(
    shots.map((_, i) => `S${String(10 + i).padStart(4, "0")}.dng`),
  );
  for (const { found, id } of started.frames) {
    expect(found, `frame ${id}`).toBeDefined();
    expect(Math.abs(found!.area.width - 0.91), `frame ${id}`).toBeLessThan(0.01);
    expect(Math.abs(found!.area.left - 0.045), `frame ${id}`).toBeLessThan(0.015);
  }
}, 120_000);
