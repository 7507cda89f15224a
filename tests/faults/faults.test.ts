/**
 * Faults at seeded moments: afterwards every original is byte-identical, every picture whole or absent, and the next run
 * finishes the work. FAULT_RUNS sets how often each is played (docs/faults.md has the figures of 20); a normal test run
 * plays each once.
 */
import { execFileSync } from "node:child_process";
import {
  appendFileSync,
  chmodSync,
  chownSync,
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  renameSync,
  rmSync,
  truncateSync,
  unlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as after } from "node:timers/promises";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { fingerprints } from "../unit/cli/command.ts";
import { seeded } from "../unit/scans/files.ts";
import { playCacheFault } from "./cache.ts";
import { copyOf, finish, losses, makeStage, PICTURES, run, type Stage, start } from "./stage.ts";

const runs = Number(process.env.FAULT_RUNS ?? 1);
let stage: Stage;
beforeAll(async () => {
  stage = await makeStage();
}, 120_000);
afterAll(() => {
  rmSync(stage.folder, { recursive: true, force: true });
  if (process.env.FAULT_RUNS)
    for (const [name, count] of figures) console.log(`${name.padEnd(44)} ${count} runs, 0 losses`);
});
const figures = new Map<string, number>();

type Play = (random: () => number, k: number) => Promise<string[]>;

const fault = Object.assign((name: string, play: Play): void => define(test, name, play), {
  skipIf: (not: boolean) => (name: string, play: Play) => define(test.skipIf(not), name, play),
});

function define(as: (name: string, play: () => Promise<void>, limit: number) => void, name: string, play: Play): void {
  as(
    name,
    async () => {
      for (let k = 0; k < runs; k++) {
        const lost = await play(seeded(k * 7919 + name.length), k);
        expect([k, lost]).toEqual([k, []]);
        figures.set(name, k + 1);
      }
    },
    120_000 * Math.max(1, runs),
  );
}

const unix = process.platform !== "win32";

/** Whether a disk can be made out of memory, which takes a superuser and more rights than many containers have. */
function canMount(): boolean {
  if (process.platform !== "linux" || process.getuid?.() !== 0) return false;
  const place = mkdtempSync(join(tmpdir(), "mount-"));
  try {
    execFileSync("mount", ["-t", "tmpfs", "-o", "size=16k", "tmpfs", place], { stdio: "ignore" });
    execFileSync("umount", [place]);
    return true;
  } catch {
    return false;
  } finally {
    rmSync(place, { recursive: true, force: true });
  }
}

describe.skipIf(!unix)("kill -9", () => {
  fault("render", async (random, k) => {
    const copy = copyOf(stage, "kill-render");
    const started = start(["render", copy.roll, "-o", copy.out, "--workers", "2"]);
    await after(random() * stage.takes * 1.1);
    started.kill(k % 2 === 0);
    await started.ended;
    // What the program had started ends by itself when the program is gone.
    await after(300);
    return [...losses(stage, copy), ...(await finish(stage, copy))];
  });

  const edits: readonly [name: string, args: readonly string[]][] = [
    ["format", ["format"]],
    ["lock", ["lock"]],
    ["base --write", ["base", "--write"]],
  ];
  for (const [name, [verb, ...more]] of edits)
    fault(name, async (random) => {
      const copy = copyOf(stage, "kill-edit");
      // A layout that format changes.
      appendFileSync(copy.roll, "\n\n\n# the end\n");
      const before = readFileSync(copy.roll, "utf8");
      const twin = copyOf(stage, "twin");
      writeFileSync(twin.roll, before);
      const begun = performance.now();
      await run([verb!, twin.roll, ...more]);
      const takes = performance.now() - begun;
      const done = readFileSync(twin.roll, "utf8");
      const started = start([verb!, copy.roll, ...more]);
      await after(random() * takes * 1.1);
      started.kill(true);
      await started.ended;
      const now = readFileSync(copy.roll, "utf8");
      const lost = losses(stage, copy, ["a.roll.yaml"]);
      if (now !== before && now !== done) lost.push("the recipe is neither the old nor the new one");
      const { code } = await run([verb!, copy.roll, ...more]);
      if (code !== 0 || readFileSync(copy.roll, "utf8") !== done) lost.push("the next run does not finish the work");
      return lost;
    });

  fault("cache writing", (random) => playCacheFault(mkdtempSync(join(stage.folder, "cache-")), random));
});

describe.skipIf(!unix)("disks", () => {
  fault("full", async (random) => {
    const copy = copyOf(stage, "full");
    // Files may not grow beyond some blocks of 1024 bytes: writing ends as it does on a full disk.
    const blocks = 1 + Math.floor(random() * 60);
    const { code, err } = await run(["render", copy.roll, "-o", copy.out, "--workers", "1"], {
      before: `ulimit -f ${blocks}`,
    });
    const lost = losses(stage, copy);
    const count = Object.keys(fingerprints(copy.out)).length;
    if (code !== (count === Object.keys(stage.pictures).length ? 0 : 1)) lost.push(`exit code ${code}: ${err}`);
    if (code === 1 && !/is larger than this user may write|EFBIG/.test(err)) lost.push(`it does not say why: ${err}`);
    if (Object.keys(fingerprints(copy.out)).some((name) => name.endsWith(".part"))) lost.push("a part was left");
    return [...lost, ...(await finish(stage, copy))];
  });

  fault.skipIf(!canMount())("full, a small disk of its own", async (random) => {
    const copy = copyOf(stage, "small-disk");
    mkdirSync(copy.out);
    const size = (kilobytes: number): string => `size=${kilobytes}k`;
    execFileSync("mount", ["-t", "tmpfs", "-o", size(16 + Math.floor(random() * 120)), "tmpfs", copy.out]);
    try {
      const { code, err } = await run(["render", copy.roll, "-o", copy.out, "--workers", "2"]);
      const lost = losses(stage, copy);
      const there = Object.keys(fingerprints(copy.out));
      if (there.some((name) => name.endsWith(".part"))) lost.push("a part was left");
      if (code !== (there.length === PICTURES ? 0 : 1)) lost.push(`exit code ${code}: ${err}`);
      if (code === 1 && !/does not fit on the disk|ENOSPC/.test(err)) lost.push(`it does not say why: ${err}`);
      execFileSync("mount", ["-o", `remount,${size(20_000)}`, copy.out]);
      return [...lost, ...(await finish(stage, copy))];
    } finally {
      execFileSync("umount", [copy.out]);
    }
  });

  fault("a folder that may only be read", async () => {
    const copy = copyOf(stage, "read-only");
    mkdirSync(copy.out);
    chmodSync(stage.folder, 0o755);
    chmodSync(copy.out, 0o555);
    const nobody = process.getuid?.() === 0 ? { uid: 65_534, gid: 65_534 } : {};
    const { code, err } = await run(["render", copy.roll, "-o", copy.out, "--workers", "1"], nobody);
    const lost = losses(stage, copy);
    if (code === 0 || !/EACCES|may not be written|permission/i.test(err)) lost.push(`exit code ${code}: ${err}`);
    chmodSync(copy.out, 0o755);
    if ("uid" in nobody) chownSync(copy.out, 0, 0);
    return [...lost, ...(await finish(stage, copy))];
  });
});

describe("scans while they are rendered", () => {
  const harms: readonly [name: string, harm: (path: string, other: string) => void][] = [
    ["deleted", (path) => unlinkSync(path)],
    [
      "replaced by another file",
      (path, other) => (copyFileSync(other, `${path}.new`), renameSync(`${path}.new`, path)),
    ],
    ["written over in place", (path, other) => copyFileSync(other, path)],
    ["cut short", (path) => truncateSync(path, 5000)],
  ];
  for (const [name, harm] of harms)
    fault(name, async (random) => {
      const copy = copyOf(stage, "harmed");
      const scan = `F0${1 + Math.floor(random() * 4)}.dng`;
      const path = join(copy.home, "scans", scan);
      const other = join(copy.home, "scans", scan === "F01.dng" ? "F02.dng" : "F01.dng");
      const started = start(["render", copy.roll, "-o", copy.out, "--workers", "2"]);
      await after(random() * stage.takes);
      harm(path, other);
      await started.ended;
      // The harmed frame may show the scan as it was or as it is now; every other one is what it always was.
      const frame = scan.slice(1, 3);
      const twin = copyOf(stage, "harmed-twin");
      if (existsSync(path)) copyFileSync(path, join(twin.home, "scans", scan));
      else unlinkSync(join(twin.home, "scans", scan));
      await run(["render", twin.roll, "-o", twin.out, "--frames", frame, "--workers", "1"]);
      const now = fingerprints(twin.out);
      const lost: string[] = [];
      for (const [file, hash] of Object.entries(fingerprints(copy.out)))
        if (hash !== stage.pictures[file] && hash !== now[file])
          lost.push(`${file} is neither the old nor the new scan's`);
      copyFileSync(join(stage.folder, "roll", "scans", scan), path);
      return [...lost, ...(await finish(stage, copy, frame))];
    });
});

describe("two at once", () => {
  fault("renders of one roll into one folder", async (random) => {
    const copy = copyOf(stage, "twice");
    const args = ["render", copy.roll, "-o", copy.out, "--workers", "1"];
    const first = start(args);
    await after(random() * stage.takes);
    const ended = await Promise.all([first.ended, run(args)]);
    const lost = losses(stage, copy);
    for (const { code, err } of ended) if (code !== 0) lost.push(`exit code ${code}: ${err}`);
    return [...lost, ...(await finish(stage, copy))];
  });

  fault("editors on one recipe", async (random) => {
    const copy = copyOf(stage, "editors");
    const started = start(["lock", copy.roll]);
    await after(random() * stage.takes);
    const mine = `${readFileSync(copy.roll, "utf8")}# mine ${random()}\n`;
    writeFileSync(`${copy.roll}.tmp`, mine);
    renameSync(`${copy.roll}.tmp`, copy.roll);
    const { code } = await started.ended;
    const now = readFileSync(copy.roll, "utf8");
    const lost = losses(stage, copy, ["a.roll.yaml"]);
    if (!now.includes(mine.split("\n").at(-2)!)) lost.push("what was typed is lost");
    if (code !== 0 && now !== mine) lost.push("the command failed and changed the recipe all the same");
    const locked = await run(["lock", copy.roll]);
    if (locked.code !== 0) lost.push(`the next run fails: ${locked.err}`);
    return lost;
  });
});
