/** What the preview's host asks its workers for. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { makePictures } from "../../../../extension/editor/preview/pictures.ts";
import { isValid, rollState } from "../../../../extension/editor/preview/roll-state.ts";
import { parseRecipe } from "../../../../extension/recipe/problems/document.ts";
import { loadDocument } from "../../../../extension/recipe/resolve/workspace.ts";
import type { LinearProxy } from "../../../../extension/work/frame/preview-proxy.ts";
import type { Job } from "../../../../extension/work/pool/job.ts";
import type { Pool } from "../../../../extension/work/pool/pool.ts";
import { openWorkspace } from "../../../../extension/work/files/workspace.ts";

const ROLL = `version: 1
light: { spots: [[0.9, 0.1, 0.002]] }
output:
  - { name: wall, type: tiff, print: { paper: A4, profile: ../profiles/matte.icc, blackPointCompensation: false } }
  - { name: press, type: tiff, print: { paper: A4, profile: ../profiles/matte.icc, intent: perceptual } }
  - { name: plain, type: tiff, print: { paper: A4 } }
frames:
  "01":
    scan: A.dng
    spots: [[0.5, 0.5, 0.003]]
  "02":
    scans: [A.dng, B.dng]
    join: [[0, 0, 0], [3812.4, -6.2, 0.03]]
    spots: [[0.4, 0.4, 0.003]]
  "03":
    scans: [A.dng, B.dng]
  "04":
    scans: [A.dng, GONE.dng]
    join: [[0, 0, 0], [3812.4, -6.2, 0.03]]
`;

describe("the preview's pictures", () => {
  const root = mkdtempSync(join(tmpdir(), "pictures-"));
  mkdirSync(join(root, "rolls"));
  for (const name of ["A.dng", "B.dng"]) writeFileSync(join(root, "rolls", name), name);
  afterAll(() => rmSync(root, { recursive: true, force: true }));

  const requested: { job: string; payload: unknown }[] = [];
  const pool = {
    workers: 1,
    run: async (job: Job<unknown, unknown>, payload: unknown) => {
      requested.push({ job: job.name, payload });
      return job.name === "read-base"
        ? { density: [0.3, 0.6, 0.8], scatter: [0, 0, 0], index: 1, area: [0.1, 0.1, 0.1, 0.1], warnings: [] }
        : { warnings: ["a warning"] };
    },
  } as unknown as Pool;
  const cache = { folder: join(root, "cache"), maxBytes: 1e6 };
  const pictures = makePictures(pool, cache);
  const { signal } = new AbortController();
  const loaded = loadDocument(parseRecipe(ROLL, { file: "rolls/h.roll.yaml", roots: [""] }), {
    roots: [""],
    read: async () => undefined,
    exists: async () => true,
    list: async () => ["A.dng", "B.dng"],
  });
  async function place() {
    const roll = await loaded;
    if (!isValid(roll)) throw new Error(JSON.stringify(roll.problems));
    return { roll: roll.resolved, workspace: openWorkspace(root) };
  }

  it("of a frame of one scan heal what lies on it and on the sensor", async () => {
    const { warnings } = await pictures.proxy(await place(), "01", "picture", signal);
    expect(warnings).toEqual(["a warning"]);
    const { job, payload } = requested.at(-1)!;
    expect(job).toBe("linear-proxy");
    expect(payload).toMatchObject({ path: join(root, "rolls/A.dng"), want: "picture", cache });
    expect((payload as LinearProxy).join).toBeUndefined();
    expect((payload as LinearProxy).spots).toEqual([
      [0.9, 0.1, 0.002],
      [0.5, 0.5, 0.003],
    ]);
  });

  it("of a joined frame name its scans and their places, sensor dust apart from the picture's spots", async () => {
    await pictures.proxy(await place(), "02", "thumbnail", signal);
    expect(requested.at(-1)!.payload).toMatchObject({
      path: join(root, "rolls/A.dng"),
      join: {
        scans: [
          { path: join(root, "rolls/A.dng"), place: [0, 0, 0] },
          { path: join(root, "rolls/B.dng"), place: [3812.4, -6.2, 0.03] },
        ],
        sensorDust: [[0.9, 0.1, 0.002]],
      },
      spots: [[0.4, 0.4, 0.003]],
    });
    const reading = await pictures.base(await place(), "02", [0.7, 0.1, 0.1, 0.1], signal);
    expect(requested.at(-1)!.payload).toMatchObject({ joined: { join: { sensorDust: [[0.9, 0.1, 0.002]] }, cache } });
    // The worker says on which of the scans the area lies.
    expect([reading.scan, reading.area]).toEqual(["B.dng", [0.1, 0.1, 0.1, 0.1]]);
  });

  it("say what is missing of a join", async () => {
    await expect(pictures.proxy(await place(), "03", "picture", signal)).rejects.toThrow(
      /does not state their positions/,
    );
    await expect(pictures.proxy(await place(), "04", "picture", signal)).rejects.toThrow(/GONE\.dng of frame 04/);
    await expect(pictures.proxy(await place(), "05", "picture", signal)).rejects.toThrow(
      /Frame 05 was not found in the recipe/,
    );
  });

  it("make the proof of an output by its profile and intent, and refuse one without a profile", async () => {
    const file = join(root, "profiles/matte.icc");
    await pictures.proof(await place(), "wall", "srgb", signal);
    const wall = { file, intent: "relative-colorimetric", compensate: false, screen: "srgb", cache };
    expect(requested.at(-1)).toEqual({ job: "proof", payload: wall });
    await pictures.proof(await place(), "press", "p3", signal);
    expect(requested.at(-1)!.payload).toEqual({ ...wall, intent: "perceptual", screen: "p3" });
    await expect(pictures.proof(await place(), "plain", "srgb", signal)).rejects.toThrow(/plain is not printed by/);
  });

  it("offer outputs with a profile for proofs, which are made again when the profile has changed", async () => {
    const roll = await loaded;
    if (!isValid(roll)) throw new Error("not sound");
    const printsOf = (stamp: string) => rollState(roll, roll, { version: 1, trusted: true, stamp: () => stamp }).prints;
    const prints = printsOf("1");
    expect(prints.map(({ output, profile, intent }) => [output, profile, intent])).toEqual([
      ["wall", "matte.icc", "relative-colorimetric"],
      ["press", "matte.icc", "perceptual"],
    ]);
    expect(prints[0]!.key).not.toBe(prints[1]!.key);
    expect(printsOf("2")[0]!.key).not.toBe(prints[0]!.key);
  });

  it("are rebuilt when a join is measured again, and show no sensor dust in a joined picture", async () => {
    const roll = await loaded;
    if (!isValid(roll)) throw new Error("not sound");
    const stamp = (path: string): string => path;
    const { frames } = rollState(roll, roll, { version: 1, trusted: true, stamp });
    expect(frames.map((f) => f.lightSpots.length)).toEqual([1, 0, 0, 0]);
    expect(frames[1].source).toContain("3812.4");
    expect(new Set(frames.map((f) => f.source)).size).toBe(4);
  });
});
