/** The folder that a recipe's paths may not leave, on disk. */
import { decodeRecipe } from "../../recipe/yaml/encoding.ts";
import { existsSync } from "node:fs";
import { readdir, readFile, stat } from "node:fs/promises";
import { dirname, join, relative, resolve, sep } from "node:path";
import type { Pointer } from "../../recipe/resolve/pointer.ts";
import { pointerAt } from "../../scans/files/pointer.ts";
import { truePath } from "./true-path.ts";

/** The folder that a recipe's paths may not leave, with its files. */
export interface Workspace {
  /** Absolute. */
  readonly root: string;
  /** Path relative to the root, with / between folders: the form that recipes' paths are resolved in. */
  inside(path: string): string;
  /**
   * Absolute path of a path of that form. Throws a WorkspaceError when it leads out, by itself or through a link.
   */
  absolute(path: string): string;
  read(path: string): Promise<string | undefined>;
  exists(path: string): Promise<boolean>;
  list(folder: string): Promise<string[] | undefined>;
  /** What lies at a path in place of a scan that is kept elsewhere; undefined for a scan itself. */
  pointer(path: string): Promise<Pointer | undefined>;
}

/** A path that leaves the workspace. */
export class WorkspaceError extends Error {
  readonly code = "outside";
  readonly remedy = "Move the file into the workspace, or start from a folder further up with --root.";
  constructor(path: string, root: string) {
    super(`${path} leads out of the workspace ${root}.`);
    this.name = "WorkspaceError";
  }
}

/** A recipe longer than this is refused by its reader anyway; it is not loaded to find out. */
const LARGEST_TEXT = 16_000_000;

/**
 * The workspace of a recipe: the nearest folder above it that holds `.git` (file or folder), else the folder above the
 * recipe's own, so that `../stocks` works without git too.
 */
export function workspaceOf(recipe: string): Workspace {
  const own = dirname(resolve(recipe));
  for (let folder = own; ; folder = dirname(folder)) {
    if (existsSync(join(folder, ".git"))) return openWorkspace(folder);
    if (dirname(folder) === folder) return openWorkspace(dirname(own));
  }
}

export function openWorkspace(root: string): Workspace {
  const top = resolve(root);
  const truth = truePath(top);
  const absolute = (path: string): string => {
    const full = resolve(top, path);
    if (!contains(top, full) || !contains(truth, truePath(full))) throw new WorkspaceError(path, top);
    return full;
  };
  return {
    root: top,
    inside: (path) => relative(top, resolve(path)).split(sep).join("/"),
    absolute,
    async read(path) {
      try {
        const full = absolute(path);
        const found = await stat(full);
        // A pipe or a device by a recipe's name would keep its reader for ever.
        if (!found.isFile()) return undefined;
        return found.size > LARGEST_TEXT ? "\u0000".repeat(3_000_000) : decodeRecipe(await readFile(full));
      } catch (error) {
        if (error instanceof WorkspaceError || isMissing(error)) return undefined;
        throw error;
      }
    },
    async exists(path) {
      try {
        return existsSync(absolute(path));
      } catch (error) {
        if (error instanceof WorkspaceError) return false;
        throw error;
      }
    },
    async list(folder) {
      try {
        return (await readdir(absolute(folder))).toSorted();
      } catch (error) {
        if (error instanceof WorkspaceError || isMissing(error)) return undefined;
        throw error;
      }
    },
    async pointer(path) {
      try {
        return await pointerAt(absolute(path));
      } catch (error) {
        if (error instanceof WorkspaceError) return undefined;
        throw error;
      }
    },
  };
}

const contains = (folder: string, path: string): boolean =>
  path === folder || path.startsWith(folder.endsWith(sep) ? folder : folder + sep);

const isMissing = (error: unknown): boolean =>
  ["ENOENT", "ENOTDIR", "EISDIR", "ENAMETOOLONG", "ELOOP"].includes((error as NodeJS.ErrnoException).code ?? "");
