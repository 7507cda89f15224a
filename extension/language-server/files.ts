/** The workspace as the language server sees it: the client's open documents first, then files of this computer. */
import { readdir } from "node:fs/promises";
import { join, sep } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import type { RecipeKind } from "../recipe/path.ts";
import type { Place } from "../recipe/language/types.ts";
import type { Pointer } from "../recipe/resolve/pointer.ts";
import type { RecipeWorkspace } from "../recipe/language/workspace.ts";
import { openWorkspace, type Workspace, WorkspaceError, workspaceOf } from "../work/files/workspace.ts";

/** More recipes than this are not looked for in one workspace, nor folders deeper than this. */
const MAX_RECIPES = 2000;
const MAX_DEPTH = 12;

/**
 * The name that a document has for the recipe room: an absolute path with /. What is no file of this computer keeps its
 * scheme in front, as //scheme+host/path, and is never looked for on disk.
 */
export function fileOf(uri: string): string {
  const url = new URL(uri);
  if (url.protocol !== "file:") return `//${url.protocol.slice(0, -1)}+${url.host}${decodeURIComponent(url.pathname)}`;
  const path = fileURLToPath(url).split(sep).join("/");
  return path.startsWith("/") ? path : `/${path}`;
}

/** The address of a file by its name. */
export const uriOf = (file: string): string => pathToFileURL(onDisk(file)).href;

/** On Windows a name begins with a slash before the drive's letter, and a path does not. */
const onDisk = (file: string): string => (/^\/[a-z]:\//i.test(file) ? file.slice(1) : file);

export interface OpenTexts {
  /** The text of a document that is open in the client. */
  text(file: string): string | undefined;
  /** Folders of the client's workspace, as names. */
  folders(): readonly string[];
}

export class DiskFiles implements RecipeWorkspace {
  readonly #open: OpenTexts;

  constructor(open: OpenTexts) {
    this.#open = open;
  }

  async read(file: string): Promise<string | undefined> {
    return this.#open.text(file) ?? (await this.#around(file)?.read(onDisk(file)));
  }

  async exists(file: string): Promise<boolean> {
    return this.#open.text(file) !== undefined || ((await this.#around(file)?.exists(onDisk(file))) ?? false);
  }

  async list(folder: string): Promise<readonly string[] | undefined> {
    try {
      const path = this.#around(folder)?.absolute(onDisk(folder));
      if (path === undefined) return undefined;
      const entries = await readdir(path, { withFileTypes: true });
      return entries.map((entry) => (entry.isDirectory() ? `${entry.name}/` : entry.name));
    } catch {
      return undefined;
    }
  }

  async pointer(file: string): Promise<Pointer | undefined> {
    return this.#around(file)?.pointer(onDisk(file));
  }

  roots(file: string): readonly string[] {
    const root = this.#around(file)?.root.split(sep).join("/");
    return root === undefined ? [] : [root.startsWith("/") ? root : `/${root}`];
  }

  async find(kind: RecipeKind): Promise<readonly string[]> {
    const found: string[] = [];
    const ending = new RegExp(`\\.${kind}\\.ya?ml$`, "i");
    const walk = async (folder: string, depth: number): Promise<void> => {
      const entries = await readdir(onDisk(folder), { withFileTypes: true }).catch(() => []);
      for (const entry of entries.toSorted((a, b) => (a.name < b.name ? -1 : 1))) {
        if (found.length >= MAX_RECIPES) return;
        const path = `${folder}/${entry.name}`;
        if (entry.isFile() && ending.test(entry.name)) found.push(path);
        else if (entry.isDirectory() && depth < MAX_DEPTH && !/^(\.|node_modules$)/.test(entry.name))
          await walk(path, depth + 1);
      }
    };
    for (const folder of this.#open.folders()) await walk(folder, 0);
    return found;
  }

  link(file: string, at?: Place): string {
    return at ? `${uriOf(file)}#L${at.line + 1},${at.character + 1}` : uriOf(file);
  }

  /** The client's folder around a file, else the workspace that the command would take. */
  #around(file: string): Workspace | undefined {
    if (file.startsWith("//")) return undefined;
    const folder = this.#open.folders().find((one) => file === one || file.startsWith(`${one}/`));
    try {
      return folder === undefined ? workspaceOf(join(onDisk(file))) : openWorkspace(onDisk(folder));
    } catch (error) {
      if (error instanceof WorkspaceError) return undefined;
      throw error;
    }
  }
}
