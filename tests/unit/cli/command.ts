/** Runs the built command as a user would, and collects what it says. */
import { spawn } from "node:child_process";
import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { join, relative } from "node:path";
import { fileURLToPath } from "node:url";
import { createHash } from "node:crypto";

const program = fileURLToPath(new URL("../../../dist/rollbook.mjs", import.meta.url));
if (!existsSync(program)) throw new Error("dist/rollbook.mjs is missing: run npm run build first.");

export interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

export interface RunSettings {
  readonly cwd?: string;
  /** Called once the process runs; may kill it. */
  readonly during?: (kill: (signal: NodeJS.Signals) => void) => void;
}

export function rollbook(args: readonly string[], { cwd, during }: RunSettings = {}): Promise<Ran> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [program, ...args], { cwd, stdio: ["ignore", "pipe", "pipe"] });
    let out = "";
    let err = "";
    child.stdout.setEncoding("utf8").on("data", (text: string) => (out += text));
    child.stderr.setEncoding("utf8").on("data", (text: string) => (err += text));
    child.on("error", reject);
    child.on("close", (code) => resolve({ code, out, err }));
    during?.((signal) => child.kill(signal));
  });
}

/** Runs with --json: standard output must be one object. */
export async function asJson<T>(args: readonly string[], settings?: RunSettings): Promise<Ran & { json: T }> {
  const ran = await rollbook([...args, "--json"], settings);
  return { ...ran, json: JSON.parse(ran.out) as T };
}

/** Every file under a folder with its SHA-256; the journal's folder left out. */
export function fingerprints(folder: string): Record<string, string> {
  const found: Record<string, string> = {};
  const walk = (at: string): void => {
    for (const name of existsSync(at) ? readdirSync(at).toSorted() : []) {
      const path = join(at, name);
      if (statSync(path).isDirectory()) {
        if (name !== ".rollbook") walk(path);
      } else found[relative(folder, path)] = createHash("sha256").update(readFileSync(path)).digest("hex");
    }
  };
  walk(folder);
  return found;
}
