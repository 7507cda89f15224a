import { existsSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";

const root = resolve(import.meta.dirname, "../../../..");

/** The name and version of the project, as in the names of its VSIX files. */
export const project: { name: string; version: string; publisher: string } = JSON.parse(
  readFileSync(join(root, "package.json"), "utf8"),
);

/**
 * The VSIX file that `npm run package` made.
 * @param kind `host` for this machine's platform
 * @throws Error when it is not there
 */
export function packedExtension(kind: "universal" | "host"): string {
  const folder = resolve(process.env.E2E_VSIX_DIR ?? join(root, ".cache/vsix"));
  const platform = kind === "host" ? `-${process.platform}-${process.arch}` : "";
  const path = join(folder, `${project.name}-${project.version}${platform}.vsix`);
  if (!existsSync(path)) throw new Error(`${path} is missing. Run: npm run package`);
  return path;
}
