/** How the command ends: by signals at any moment, by pipes and devices, by what the system refuses. */
import { execFileSync, spawn } from "node:child_process";
import { chmodSync, cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync } from "node:fs";
import { writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { makeRoll } from "../bench/synthetic-roll.ts";
import { type Ended, run, start } from "../faults/stage.ts";

const home = mkdtempSync(join(tmpdir(), "ending-"));
const root = join(home, "roll");
beforeAll(() => {
  makeRoll(root, "a", { width: 480, height: 320, frames: 2 });
  execFileSync("git", ["init", "-q", root]);
  for (const name of ["b", "o", "t"]) writeFileSync(join(root, `${name}.yaml`), `version: 1\ntitle: ${name}\n`);
  writeFileSync(join(root, "curve.csv"), "logH,density\n-3,0.2\n-2,0.5\n-1,1.3\n0,2.0\n0.5,2.1\n");
  for (const pipe of ["pipe.roll.yaml", "pipe.csv", "pipe.dng"]) execFileSync("mkfifo", [join(root, pipe)]);
}, 60_000);
afterAll(() => rmSync(home, { recursive: true, force: true }));

const calls: readonly (readonly string[])[] = [
  ["new", "scans", "-o", "new.roll.yaml", "--overwrite"],
  ["check", "a.roll.yaml"],
  ["format", "a.roll.yaml"],
  ["base", "a.roll.yaml", "--write"],
  ["survey", "a.roll.yaml", "--html", "survey.html"],
  ["render", "a.roll.yaml", "-o", "out"],
  ["contact", "a.roll.yaml", "-o", "sheet.jpg"],
  ["join", "a.roll.yaml"],
  ["lock", "a.roll.yaml"],
  ["review", "--html", "review.html"],
  ["git-setup"],
  ["textconv", "a.roll.yaml"],
  ["merge-driver", "b.yaml", "o.yaml", "t.yaml"],
  ["calibrate", "curve", "curve.csv"],
  ["stock", "a.roll.yaml", "-o", "s.stock.yaml", "--overwrite"],
];

/** Milliseconds in which a signal must end the command: a worker may finish a file first, and the machine be busy. */
const LIMIT = 12_000;

describe.skipIf(process.platform === "win32")("a signal", () => {
  test.each(calls)(
    "ends %s at any moment, and leaves no half file",
    async (...args) => {
      const began = performance.now();
      await run(args, { cwd: copy() });
      const takes = performance.now() - began;
      for (const [part, signal] of [
        [0.2, "SIGINT"],
        [0.5, "SIGTERM"],
        [0.8, "SIGINT"],
      ] as const) {
        const folder = copy();
        const started = start(args, { cwd: folder });
        await new Promise((resolve) => setTimeout(resolve, part * takes));
        const sent = performance.now();
        // As Ctrl-C on a terminal does: to every process of the group.
        try {
          process.kill(-started.process.pid!, signal);
        } catch {
          continue; // it was faster this time
        }
        const ended = await started.ended;
        expect(performance.now() - sent).toBeLessThan(LIMIT);
        // Before the program has loaded, the signal itself ends it; after its last line, it is done.
        expect([130, 0, 1, null]).toContain(ended.code);
        expect(ended.err).not.toMatch(/\n\s+at /);
        expect(halfFiles(folder)).toEqual([]);
        expect(await leftOf(started.process.pid!)).toEqual([]);
      }
    },
    180_000,
  );

  test("ends a command whose pool does not answer", async () => {
    const started = start(["render", "a.roll.yaml", "-o", "out"], { cwd: copy() });
    let pool: number | undefined;
    for (let i = 0; i < 1000 && pool === undefined; i++) {
      await new Promise((resolve) => setTimeout(resolve, 10));
      // Not the copy of the command that is about to become the pool: stopped there, it would keep its parent waiting.
      pool = processesOf(started.process.pid!).find((id) => commandLineOf(id).includes("pool.mjs"));
    }
    process.kill(pool!, "SIGSTOP");
    const sent = performance.now();
    process.kill(started.process.pid!, "SIGTERM");
    expect((await started.ended).code).toBe(130);
    expect(performance.now() - sent).toBeLessThan(LIMIT);
    expect(await leftOf(started.process.pid!)).toEqual([]);
  }, 60_000);
});

describe.skipIf(process.platform === "win32")("a pipe or a device", () => {
  const refused: readonly (readonly string[])[] = [
    ...[
      "check",
      "format",
      "base",
      "survey",
      "contact -o x.jpg",
      "render -o x",
      "join",
      "lock",
      "textconv",
      "stock -o x.stock.yaml",
    ].flatMap((line) => ["pipe.roll.yaml", "/dev/zero"].map((file) => [...line.split(" "), file])),
    ["merge-driver", "pipe.roll.yaml", "o.yaml", "t.yaml"],
    ["merge-driver", "b.yaml", "/dev/zero", "t.yaml"],
    ["calibrate", "curve", "pipe.csv"],
    ["calibrate", "curve", "/dev/zero"],
    ["calibrate", "curve", "curve.csv", "--write", "pipe.roll.yaml"],
    ["base", "a.roll.yaml", "--scan", "../pipe.dng", "--area", "0.1,0.1,0.2,0.2"],
  ];
  test.each(refused)(
    "is refused at once: %s %s %s %s",
    async (...args) => {
      const began = performance.now();
      const ended = await run(args, { cwd: root });
      expect(ended.code).toBeGreaterThanOrEqual(1);
      expect(performance.now() - began).toBeLessThan(LIMIT);
      expect(ended.err).not.toMatch(/\n\s+at |E[A-Z]{3,}:/);
    },
    30_000,
  );
});

describe.skipIf(process.platform === "win32")("what the system refuses is said in a sentence with a remedy", () => {
  /** Empty where the command ended with 2 and with a sentence on what to do; else what it printed. */
  const unlike = ({ code, err }: Ended): string =>
    code === 2 && /[a-z)]\. [A-Z][^.]*[a-z)]\.\n$/s.test(err) && !/broke down|\n\s+at |E[A-Z]{3,}:/.test(err)
      ? ""
      : `${code}: ${err}`;

  test("links that never end, and files below files", async () => {
    symlinkSync("loop.roll.yaml", join(root, "loop.roll.yaml"));
    symlinkSync("round", join(root, "round"));
    for (const args of [
      ["textconv", "loop.roll.yaml"],
      ["calibrate", "curve", "loop.roll.yaml"],
      ["render", "a.roll.yaml", "-o", "round/x"],
    ])
      expect(unlike(await run(args, { cwd: root }))).toBe("");
    expect(unlike(await run(["render", "a.roll.yaml", "-o", "a.roll.yaml/x"], { cwd: root }))).toBe("");
    expect(unlike(await run(["render", "a.roll.yaml", "-o", "/proc/x"], { cwd: root }))).toBe("");
    expect(unlike(await run(["contact", "a.roll.yaml", "-o", "/proc/x/sheet.jpg"], { cwd: root }))).toBe("");
  }, 60_000);

  test.skipIf(process.getuid?.() === 0)("files that may not be read", async () => {
    writeFileSync(join(root, "closed.csv"), "x");
    chmodSync(join(root, "closed.csv"), 0);
    expect(unlike(await run(["calibrate", "curve", "closed.csv"], { cwd: root }))).toBe("");
  });

  test("too many open files", async () => {
    for (const limit of [19, 21, 23, 26]) {
      const ended = await run(["render", "a.roll.yaml", "-o", "few"], { cwd: root, before: `ulimit -n ${limit}` });
      // Below some number Node itself cannot start.
      expect(ended.err).not.toMatch(/broke down|EMFILE:/);
    }
  }, 60_000);

  const command = fileURLToPath(new URL("../../dist/rollbook.mjs", import.meta.url));
  const shell = (line: string): Promise<Ended> =>
    new Promise((resolve) => {
      const child = spawn("bash", ["-c", line, "bash", process.execPath, command], { cwd: root });
      let [out, err] = ["", ""];
      child.stdout.on("data", (text: Buffer) => (out += text.toString()));
      child.stderr.on("data", (text: Buffer) => (err += text.toString()));
      child.on("close", (code, signal) => resolve({ code, signal, out, err }));
    });

  test("a full standard output, and one whose reader has gone", async () => {
    expect(unlike(await shell('"$1" "$2" check a.roll.yaml > /dev/full'))).toBe("");
    expect(unlike(await shell('"$1" "$2" check --json a.roll.yaml > /dev/full'))).toBe("");
    // The reader has ended before the command writes its first line.
    expect(unlike(await shell('exec 3> >(exec true); sleep 0.3; "$1" "$2" check a.roll.yaml >&3'))).toBe("");
  }, 60_000);
});

function copy(): string {
  const folder = mkdtempSync(join(home, "copy-"));
  for (const name of readdirSync(root).filter((file) => !/^(pipe|loop|round|closed)/.test(file)))
    cpSync(join(root, name), join(folder, name), { recursive: true });
  return folder;
}

/** Files by the names that unfinished ones have; a killed pool leaves them to the next run. */
function halfFiles(folder: string): string[] {
  return readdirSync(folder, { recursive: true, encoding: "utf8" }).filter((name) => name.endsWith(".part"));
}

/** Processes that outlive their group's leader: git and the pool get the same signal, and may need a moment longer. */
async function leftOf(group: number): Promise<number[]> {
  for (let i = 0; i < 40 && processesOf(group).length > 0; i++) await new Promise((resolve) => setTimeout(resolve, 50));
  return processesOf(group);
}

function commandLineOf(id: number): string {
  try {
    return readFileSync(`/proc/${id}/cmdline`, "utf8");
  } catch {
    return ""; // it has ended
  }
}

/** Processes of a group that are still alive. */
function processesOf(group: number): number[] {
  return readdirSync("/proc")
    .filter((name) => /^\d+$/.test(name))
    .flatMap((name) => {
      try {
        const fields = readFileSync(`/proc/${name}/stat`, "utf8")
          .replace(/^.*\) /s, "")
          .split(" ");
        return Number(fields[2]) === group && fields[0] !== "Z" ? [Number(name)] : [];
      } catch {
        return [];
      }
    });
}
