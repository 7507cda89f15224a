/** Which shots of a folder are put together as parts of one picture. */
import { describe, expect, it } from "vitest";
import type { JoinPlace } from "../../../../../extension/engine/image/join/place.ts";
import { frameShots, type Shot } from "../../../../../extension/work/new-roll/pictures/join-shots.ts";
import type { Pool } from "../../../../../extension/work/pool/pool.ts";
import { random } from "../../../../witness/random.ts";

const [WIDE, HIGH] = [96, 64];

/** A large picture: densities of soft blobs, the same for the same seed. */
function picture(seed: number): (x: number, y: number) => number {
  const next = random(seed);
  const waves = Array.from({ length: 24 }, () => [
    next.between(-0.25, 0.25),
    next.between(-0.25, 0.25),
    next.between(0, 6.3),
  ]);
  return (x, y) => 0.8 + 0.08 * waves.reduce((sum, [u, v, w]) => sum + Math.sin(u! * x + v! * y + w!), 0);
}

const BARE = { sample: new Float32Array(0), codes: [], warnings: [] };

/** The part of a picture at a row and a column of a grid that overlaps by a quarter, or an even sky. */
function shot(name: string, of: ((x: number, y: number) => number) | "sky", row = 0, column = 0): Shot {
  const density = Float32Array.from({ length: WIDE * HIGH }, (_, i) => {
    const [x, y] = [(i % WIDE) + column * 72, Math.floor(i / WIDE) + row * 48];
    return of === "sky" ? 0.9 + 0.0005 * y : of(x, y);
  });
  return { name, path: name, seen: { ...BARE, map: { width: WIDE, height: HIGH, density } } };
}

/** Measures nothing: all are placed but those named. */
function poolWithout(apart: readonly string[]): { pool: Pool; measured: string[][] } {
  const measured: string[][] = [];
  const run = (job: { readonly name: string }, payload: { readonly paths: readonly string[] }) => {
    if (job.name !== "measure-join") return Promise.resolve({ ...BARE, map: shot("", "sky").seen.map });
    measured.push([...payload.paths]);
    const places = payload.paths.map((path, i): JoinPlace | null => (apart.includes(path) ? null : [i, 0, 0, 0.1]));
    return Promise.resolve({ places, residual: 0.1, overlaps: [] });
  };
  return { pool: { workers: 1, run } as unknown as Pool, measured };
}

const options = { light: { flare: [0, 0, 0] } } as const;
const scansOf = (frames: readonly { readonly scans: readonly string[] }[]) =>
  frames.map(({ scans }) => scans.join(" "));

describe("shots of large film", () => {
  const [a, b] = [picture(1), picture(2)];
  const grid = (of: typeof a, name: string, order: readonly number[]): Shot[] =>
    order.map((i) => shot(`${name}${i}`, of, Math.floor(i / 3), i % 3));

  it("make one frame of a grid in any order, and another of the next", async () => {
    const { pool, measured } = poolWithout([]);
    const shots = [...grid(a, "A", [0, 4, 2, 5, 1, 3]), ...grid(b, "B", [5, 4, 3, 0, 1, 2])];
    const { frames, warnings } = await frameShots(shots, options, pool);
    expect(warnings).toEqual([]);
    expect(scansOf(frames)).toEqual(["A0 A4 A2 A5 A1 A3", "B5 B4 B3 B0 B1 B2"]);
    expect(measured).toHaveLength(2);
    expect(frames[0]!.join!.places[1]).toEqual([1, 0, 0, [0.1, 0.1, 0.1]]);
  });

  it("are looked at with what lies between them or beside them and shows too little to tell", async () => {
    const { pool, measured } = poolWithout(["S2"]);
    const shots = [shot("A0", a, 0, 0), shot("S1", "sky"), shot("A1", a, 0, 1), shot("S2", "sky"), shot("C", b)];
    const { frames, warnings } = await frameShots(shots, options, pool);
    expect(measured).toEqual([["A0", "S1", "A1", "S2", "C"]]);
    // What does not belong makes a frame of its own, and no warning is made: it never looked like a part.
    expect(warnings).toEqual([]);
    expect(scansOf(frames)).toEqual(["A0 S1 A1 C", "S2"]);
  });

  it("are named where they look alike and do not fit", async () => {
    const { pool } = poolWithout(["A2"]);
    const { frames, warnings } = await frameShots(grid(a, "A", [0, 1, 2]), options, pool);
    expect(scansOf(frames)).toEqual(["A0 A1", "A2"]);
    expect(warnings).toEqual([expect.stringMatching(/^A2 looks? like/)]);
  });

  it("make a frame each where the format fits into a scan", async () => {
    const { pool, measured } = poolWithout([]);
    const { frames } = await frameShots(grid(a, "A", [0, 1, 2]), { ...options, fits: true }, pool);
    expect([frames.length, measured.length]).toEqual([3, 0]);
  });

  it("stay apart where measuring fails, and it is said", async () => {
    const run = () => Promise.reject(new Error("The scans show nothing in common."));
    const { frames, warnings } = await frameShots(grid(a, "A", [0, 1]), options, {
      workers: 1,
      run,
    } as unknown as Pool);
    expect(scansOf(frames)).toEqual(["A0", "A1"]);
    expect(warnings[0]).toContain("A0 and A1 look like parts of one picture");
  });
});
