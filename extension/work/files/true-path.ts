/** Resolves links of a path. */
import { realpathSync } from "node:fs";
import { basename, dirname, join } from "node:path";

/** An absolute path with every link followed, as far as it exists. */
export function truePath(path: string): string {
  try {
    return realpathSync(path);
  } catch {
    const up = dirname(path);
    return up === path ? path : join(truePath(up), basename(path));
  }
}
