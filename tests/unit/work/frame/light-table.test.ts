/** Reading a roll's light: failures fail the frames that need it, are not kept, and deaths are no verdict on a scan. */
import { JobError } from "../../../../extension/failure.ts";
import { mkdtempSync, rmSync, utimesSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import type { ResolvedFrame } from "../../../../extension/recipe/resolve/resolve.ts";
import { lightTable } from "../../../../extension/work/frame/frame-setup.ts";
import type { Pool } from "../../../../extension/work/pool/pool.ts";
import type { Workspace } from "../../../../extension/work/files/workspace.ts";

type Answer = "works" | "worker-died" | "pool-died" | "corrupt" | "missing" | "timed-out";

let folder = "";
let reads: string[] = [];
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "light-"));
  for (const name of ["LIGHT.dng", "LEADER.dng"]) writeFileSync(join(folder, name), name);
  reads = [];
});
afterEach(() => rmSync(folder, { recursive: true }));

/** A table whose readings end as the test says, one after the other; the last answer goes on. */
function tableOf(...answers: Answer[]) {
  const run = (_: unknown, { path, field }: { path: string; field: boolean }) => {
    const answer = answers[Math.min(reads.length, answers.length - 1)];
    reads.push(path);
    if (answer !== "works")
      return Promise.reject(new JobError({ code: answer, message: `It ${answer}.`, remedy: "Wait." }));
    return Promise.resolve({ exposure: { shutter: 1 / 60 }, warnings: [], ...(field ? { field: {} } : {}) });
  };
  const workspace = { absolute: (path: string) => join(folder, path) } as Workspace;
  return lightTable({ fingerprints: {} }, workspace, { workers: 1, run } as unknown as Pool);
}

const scan = (name: string) => ({ name, path: name });
const blank = { light: { blank: scan("LIGHT.dng"), flare: [0, 0, 0] }, base: {} } as unknown as ResolvedFrame;
const base = { light: { flare: [0, 0, 0] }, base: { read: { scan: scan("LEADER.dng") } } } as unknown as ResolvedFrame;

describe.each([
  ["blank", blank],
  ["scan of the base", base],
])("the %s", (_, frame) => {
  it("is read once for all frames", async () => {
    const table = tableOf("works");
    const all = await Promise.all([table.of(frame), table.of(frame)]);
    expect(all[0].light.reference).toEqual({ shutter: 1 / 60 });
    expect(reads).toHaveLength(1);
  });

  it.each(["corrupt", "missing", "timed-out"] as const)(
    "fails what needs it when it is %s, and is read again",
    async (code) => {
      const table = tableOf(code, "works");
      const both = await Promise.allSettled([table.of(frame), table.of(frame)]);
      expect(both.map((r) => r.status === "rejected" && (r.reason as JobError).code)).toEqual([code, code]);
      expect(reads).toHaveLength(1);
      expect((await table.of(frame)).light.reference).toBeDefined();
      expect(reads).toHaveLength(2);
    },
  );

  it.each(["worker-died", "pool-died"] as const)("is read again at once after %s", async (code) => {
    expect((await tableOf(code, code, "works").of(frame)).light.reference).toBeDefined();
    expect(reads).toHaveLength(3);
  });

  it("is not opened any more when it ends every process that opens it", async () => {
    const table = tableOf("pool-died");
    for (let i = 0; i < 3; i++) await expect(table.of(frame)).rejects.toMatchObject({ code: "pool-died" });
    expect(reads).toHaveLength(3);
  });

  it("is read again when the file has changed", async () => {
    const table = tableOf("works");
    await table.of(frame);
    for (const name of ["LIGHT.dng", "LEADER.dng"]) utimesSync(join(folder, name), new Date(1e12), new Date(1e12));
    await table.of(frame);
    expect(reads).toHaveLength(2);
  });
});

it("a missing scan of the base says what it is needed for", async () => {
  const error = await tableOf("missing")
    .of(base)
    .catch((e: unknown) => e);
  expect((error as JobError).remedy).toMatch(/put LEADER\.dng back.*name a blank/);
});

it("frames that name neither are not compared", async () => {
  const neither = { light: { flare: [0, 0, 0] }, base: {} } as unknown as ResolvedFrame;
  expect(await tableOf("missing").of(neither)).toEqual({ light: { flare: [0, 0, 0] }, warnings: [] });
  expect(reads).toEqual([]);
});
