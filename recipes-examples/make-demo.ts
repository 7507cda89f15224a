/**
 * The demo: makes the two rolls of Varnhaven where their scans are missing, renders both with the `rollbook` command,
 * and says where the pictures are. Usage: node dist/demo.mjs [--again]
 */
import { spawn } from "node:child_process";
import { existsSync, readdirSync, rmSync } from "node:fs";
import { availableParallelism } from "node:os";
import { dirname, join, relative } from "node:path";
import { fileURLToPath } from "node:url";
import { Worker } from "node:worker_threads";
import { makeFolder } from "../extension/scans/files/make-folder.ts";
import { piecesOf, scanName, type Piece } from "./make-scan.ts";
import type { MakeRequest } from "./make-worker.ts";
import { ROLLS } from "./roll-plan.ts";

const dist = dirname(fileURLToPath(import.meta.url));
const examples = join(dirname(dist), "recipes-examples");
const recipeOf = (folder: string): string => join(examples, folder, `${folder}.roll.yaml`);
const scansOf = (folder: string): string => join(examples, folder, "scans");
const picturesOf = (folder: string): string => join(examples, folder, "pictures");
const short = (path: string): string => relative(process.cwd(), path) || ".";
const seconds = (since: number): string => `${((performance.now() - since) / 1000).toFixed(1)} s`;

const again = process.argv.includes("--again");
const workers: Worker[] = [];

process.on("SIGINT", () => {
  for (const w of workers) void w.terminate();
  clearHalves();
  console.log("\nStopped. Finished scans are kept; start the demo again and it goes on from there.");
  process.exit(130);
});

await main();

async function main(): Promise<void> {
  const start = performance.now();
  const missing: (MakeRequest & { name: string })[] = [];
  ROLLS.forEach((roll, index) => {
    for (const piece of piecesOf(roll)) {
      const path = join(scansOf(roll.folder), scanName(roll, piece));
      if (again || !existsSync(path)) missing.push({ roll: index, piece, path, name: nameOf(index, piece) });
    }
  });
  if (missing.length > 0) {
    const pictures = missing.filter((m) => typeof m.piece === "number").length;
    console.log(
      `Making ${missing.length} scans of two invented rolls (${pictures} pictures, drawn, put on film and photographed).`,
    );
    await make(missing);
    console.log(`The scans are there, after ${seconds(start)}.`);
  } else console.log("The scans are there already; --again makes them anew.");

  for (const roll of ROLLS) {
    const began = performance.now();
    const out = picturesOf(roll.folder);
    makeFolder(out);
    await rollbook("render", short(recipeOf(roll.folder)), "-o", short(out));
    await rollbook("contact", short(recipeOf(roll.folder)), "-o", short(join(out, "contact.jpg")));
    console.log(`Rendered ${short(recipeOf(roll.folder))} in ${seconds(began)}.`);
  }
  console.log(`\nDone in ${seconds(start)}. Your pictures:`);
  for (const roll of ROLLS) console.log(`  ${short(picturesOf(roll.folder))}  (${describe(picturesOf(roll.folder))})`);
  console.log(
    `Their recipes are ${ROLLS.map((r) => short(recipeOf(r.folder))).join(" and ")}: change a value, render again.`,
  );
}

function nameOf(roll: number, piece: Piece): string {
  return `${ROLLS[roll].folder}/${scanName(ROLLS[roll], piece)}`;
}

/** Shares the pieces out among as many threads as there are processors, four at most: each takes about 500 MB. */
async function make(missing: readonly (MakeRequest & { name: string })[]): Promise<void> {
  const queue = [...missing];
  const count = Math.min(4, availableParallelism(), queue.length);
  let done = 0;
  const show = (name: string): void => {
    done++;
    const line = `  ${String(done).padStart(2)} of ${missing.length}  ${name}`;
    if (process.stdout.isTTY) process.stdout.write(`\r\x1b[2K${line}${done === missing.length ? "\n" : ""}`);
    else console.log(line);
  };
  await Promise.all(
    Array.from({ length: count }, async () => {
      const worker = new Worker(new URL("./demo-worker.mjs", import.meta.url));
      workers.push(worker);
      for (let next = queue.shift(); next; next = queue.shift()) {
        await one(worker, next);
        show(next.name);
      }
      await worker.terminate();
    }),
  );
}

function one(worker: Worker, { roll, piece, path }: MakeRequest): Promise<void> {
  return new Promise((resolve, reject) => {
    const failed = (error: Error): void => {
      clearHalves();
      reject(new Error(`${short(path)} could not be made: ${error.message}`));
    };
    worker.once("error", failed);
    worker.once("message", () => {
      worker.off("error", failed);
      resolve();
    });
    worker.postMessage({ roll, piece, path } satisfies MakeRequest);
  });
}

/** Runs the command as a user would. Errors: the command's own exit code ends the demo. */
function rollbook(...args: string[]): Promise<void> {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [join(dist, "rollbook.mjs"), ...args], { stdio: "inherit" });
    child.on("close", (code) => {
      if (code === 0) return resolve();
      console.error(`The demo stopped: rollbook ${args[0]} ended with code ${code ?? "none"}; its message is above.`);
      process.exit(code ?? 2);
    });
  });
}

/** Half-written files of a run that was stopped. */
function clearHalves(): void {
  for (const roll of ROLLS) {
    const folder = scansOf(roll.folder);
    if (!existsSync(folder)) continue;
    for (const name of readdirSync(folder)) if (name.endsWith(".part")) rmSync(join(folder, name), { force: true });
  }
}

/** "11 JPEG, 11 TIFF": what lies in a folder, by kind. */
function describe(folder: string): string {
  const kinds = new Map<string, number>();
  for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
    if (!entry.isFile()) continue;
    const kind = { ".jpg": "JPEG", ".tif": "TIFF", ".png": "PNG" }[entry.name.slice(entry.name.lastIndexOf("."))];
    if (kind) kinds.set(kind, (kinds.get(kind) ?? 0) + 1);
  }
  return [...kinds].map(([kind, n]) => `${n} ${kind}`).join(", ") || "no pictures";
}
