/** Packs the project as npm does, and runs programs as if the project were not there. */
import { spawnSync } from "node:child_process";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

export const root = fileURLToPath(new URL("../../", import.meta.url));

export interface Packed {
  readonly filename: string;
  readonly size: number;
  readonly unpackedSize: number;
  readonly files: readonly { readonly path: string }[];
}

export interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

const shell = process.platform === "win32";

/** Runs a program of which nothing finds the project by way of the environment. */
export function run(
  program: string,
  args: readonly string[],
  cwd: string,
  more: Readonly<Record<string, string>> = {},
): Ran {
  const env = Object.fromEntries(
    Object.entries(process.env).filter(([name]) => !/^(npm_|NODE_|ROLLBOOK_|INIT_CWD|GIT_|GITHUB_)/.test(name)),
  );
  const settings = { cwd, encoding: "utf8", shell, env: { ...env, ...more } } as const;
  const { status, stdout, stderr } = spawnSync(program, args, settings);
  return { code: status, out: stdout, err: stderr };
}

/**
 * Packs what `prepack` would; the build is the one that the tests run on.
 * @param folder where the .tgz file goes
 * @returns what npm reports of it, and its path
 */
export function pack(folder: string): { readonly packed: Packed; readonly path: string } {
  const types = run("node", ["extension/packaging/prepack.mjs"], root);
  if (types.code !== 0) throw new Error(`The declarations cannot be made: ${types.out}${types.err}`);
  const { code, out, err } = run("npm", ["pack", "--json", "--ignore-scripts", "--pack-destination", folder], root);
  if (code !== 0) throw new Error(`npm pack failed: ${err}`);
  const [packed] = JSON.parse(out) as [Packed];
  return { packed, path: join(folder, packed.filename) };
}
