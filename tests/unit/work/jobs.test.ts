/** Every handle of a room has its code in the registry, and the registry nothing else. */
import { readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";
import { jobs } from "../../../extension/work/jobs.ts";
import type { Job } from "../../../extension/work/pool/job.ts";

const work = fileURLToPath(new URL("../../../extension/work", import.meta.url));

it("the registry has the code of every room's jobs, each under a name of its own", async () => {
  const files = readdirSync(work, { recursive: true, encoding: "utf8" }).filter((name) => /.[\\/]jobs\.ts$/.test(name));
  const rooms = await Promise.all(
    files.map((file) => import(`${work}/${file}`) as Promise<Record<string, Job<never, unknown>>>),
  );
  const names = rooms.flatMap((room) => Object.values(room).map(({ name }) => name));
  expect(names.length).toBeGreaterThan(15);
  expect(names.sort()).toEqual([...jobs.keys()].sort());
});
