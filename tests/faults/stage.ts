/** Where faults are played: a small roll, the program as a process of its own, and what must hold afterwards. */
import { type ChildProcess, spawn, type SpawnOptions } from "node:child_process";
import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { makeRoll } from "../bench/synthetic-roll.ts";
import { fingerprints } from "../unit/cli/command.ts";

const programs = process.env.ROLLBOOK_PROGRAMS ?? fileURLToPath(new URL("../../dist", import.meta.url));

export const OUTPUT = `  - { name: archive, type: tiff, depth: 16 }
  - { name: web, type: png, long: 100 }`;
/** Frames by outputs. */
export const PICTURES = 8;

export interface Ended {
  readonly code: number | null;
  readonly signal: NodeJS.Signals | null;
  readonly out: string;
  readonly err: string;
}

export interface Started {
  readonly process: ChildProcess;
  readonly ended: Promise<Ended>;
  /** Kill -9: the program alone, or with the processes that it has started. */
  kill(whole: boolean): void;
}

/** Starts the command in a process group of its own. `before` is a shell's line, such as a limit, in front of it. */
export function start(args: readonly string[], options: SpawnOptions & { before?: string } = {}): Started {
  const { before, ...rest } = options;
  const command = [process.execPath, join(programs, "rollbook.mjs"), ...args];
  const [program, ...line] = before ? ["bash", "-c", `${before}; exec "$@"`, "limited", ...command] : command;
  const child = spawn(program!, line, { detached: true, stdio: ["ignore", "pipe", "pipe"], ...rest });
  let out = "";
  let err = "";
  child.stdout?.setEncoding("utf8").on("data", (text: string) => (out += text));
  child.stderr?.setEncoding("utf8").on("data", (text: string) => (err += text));
  const ended = new Promise<Ended>((resolve, reject) => {
    child.on("error", reject);
    child.on("close", (code, signal) => resolve({ code, signal, out, err }));
  });
  return {
    process: child,
    ended,
    kill(whole) {
      try {
        process.kill(whole ? -child.pid! : child.pid!, "SIGKILL");
      } catch {
        // It has ended by itself: that is a moment, too.
      }
    },
  };
}

export const run = (args: readonly string[], options?: Parameters<typeof start>[1]): Promise<Ended> =>
  start(args, options).ended;

/** A roll that has been rendered once, undisturbed. Every fault is played on a copy of it. */
export interface Stage {
  readonly folder: string;
  readonly roll: string;
  /** Files of the roll with their SHA-256. */
  readonly originals: Readonly<Record<string, string>>;
  /** Pictures of the undisturbed run. */
  readonly pictures: Readonly<Record<string, string>>;
  /** Milliseconds that the undisturbed run took. */
  readonly takes: number;
}

export async function makeStage(): Promise<Stage> {
  const folder = mkdtempSync(join(tmpdir(), "faults-"));
  const home = join(folder, "roll");
  const roll = makeRoll(home, "a", { width: 160, height: 112, frames: 4, output: OUTPUT });
  const originals = fingerprints(home);
  const begun = performance.now();
  const { code, err } = await run(["render", roll, "-o", join(folder, "whole"), "--workers", "2"]);
  if (code !== 0) throw new Error(`The undisturbed run failed: ${err}`);
  return { folder, roll, originals, pictures: fingerprints(join(folder, "whole")), takes: performance.now() - begun };
}

/** A fresh copy of the roll. */
export interface Copy {
  readonly home: string;
  readonly roll: string;
  readonly out: string;
}

export function copyOf(stage: Stage, name: string): Copy {
  const place = join(stage.folder, name);
  rmSync(place, { recursive: true, force: true });
  cpSync(join(stage.folder, "roll"), join(place, "roll"), { recursive: true });
  return { home: join(place, "roll"), roll: join(place, "roll", "a.roll.yaml"), out: join(place, "out") };
}

/** What was lost, in sentences: an original that is not byte-identical, a picture that is neither whole nor absent. */
export function losses(stage: Stage, copy: Copy, except: readonly string[] = []): string[] {
  const lost: string[] = [];
  const now = fingerprints(copy.home);
  for (const [name, hash] of Object.entries(stage.originals))
    if (!except.includes(name) && now[name] !== hash) lost.push(`${name} is not what it was`);
  for (const [name, hash] of Object.entries(fingerprints(copy.out)))
    if (!name.endsWith(".part") && stage.pictures[name] !== hash) lost.push(`${name} is not whole`);
  return lost;
}

/**
 * Runs once more with --resume: the work is finished, and what was done is left alone.
 * @param again a frame whose scan was put back, and is another file by its time of change
 */
export async function finish(stage: Stage, copy: Copy, again?: string): Promise<string[]> {
  const before = Object.keys(fingerprints(copy.out)).filter((name) => !name.endsWith(".part"));
  const recorded = recordedIn(copy.out);
  const { code, out, err } = await run(["render", copy.roll, "-o", copy.out, "--resume", "--workers", "2", "--json"]);
  if (code !== 0) return [`the next run ended with ${code}: ${err.slice(-300)}`];
  const pictures = (JSON.parse(out) as { frames: { pictures: { file: string; status: string }[] }[] }).frames.flatMap(
    (frame) => frame.pictures,
  );
  const lost = losses(stage, copy);
  const there = Object.keys(fingerprints(copy.out)).filter((name) => !name.endsWith(".part"));
  if (there.length !== PICTURES) lost.push(`the next run left ${there.length} of ${PICTURES} pictures`);
  for (const { file, status } of pictures)
    if (status === "written" && before.includes(file) && recorded.has(file) && !file.includes(`-${again}.`))
      lost.push(`${file} was made twice`);
  return lost;
}

/** Pictures that the journal knows to be done. */
function recordedIn(out: string): Set<string> {
  const folder = join(out, ".rollbook");
  const done = new Set<string>();
  for (const name of existsSync(folder) ? readdirSync(folder) : [])
    for (const line of readFileSync(join(folder, name), "utf8").split("\n"))
      try {
        const record = JSON.parse(line) as { file: string; done?: unknown };
        if (record.done) done.add(record.file);
        else done.delete(record.file);
      } catch {
        // a torn line
      }
  return done;
}
