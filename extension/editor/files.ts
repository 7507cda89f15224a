/** The files of the workspace as the text features see them: open documents first, then the disk. */
import { decodeRecipe, withBadBytes } from "../recipe/yaml/encoding.ts";
import * as vscode from "vscode";
import type { Place } from "../recipe/language/types.ts";
import type { RecipeWorkspace } from "../recipe/language/workspace.ts";
import { linkPointer, MAX_POINTER, type Pointer, pointerIn } from "../recipe/resolve/pointer.ts";
import type { RecipeKind } from "../recipe/path.ts";
import { fileStamp } from "../work/files/file-stamp.ts";
import { setting } from "./settings.ts";
import { fileOf, uriOf } from "./uris.ts";

/** A recipe's text as its readers want it: letters that the editor could not read are refused, never written as �. */
export const recipeText = (document: vscode.TextDocument): string => withBadBytes(document.getText());

/** More recipes than this are not looked for in one workspace. */
const maxRecipes = 2000;

/** What lies at a path of this computer in place of a scan. */
export type PointerReader = (path: string) => Promise<Pointer | undefined>;

/** The workspace as the language features see it, through the editor's documents and file systems alone. */
export class EditorFiles implements RecipeWorkspace {
  readonly #onDisk: PointerReader | undefined;

  /** @param onDisk of files of this computer; absent in a browser, where the editor's file systems alone are asked */
  constructor(onDisk?: PointerReader) {
    this.#onDisk = onDisk;
  }

  async read(file: string): Promise<string | undefined> {
    const open = vscode.workspace.textDocuments.find((document) => !document.isClosed && fileOf(document.uri) === file);
    if (open) return recipeText(open);
    try {
      return decodeRecipe(await vscode.workspace.fs.readFile(uriOf(file))).replace(/^\uFEFF/, "");
    } catch {
      return undefined; // not found, or not readable: the recipe's problem says so
    }
  }

  async exists(file: string): Promise<boolean> {
    try {
      await vscode.workspace.fs.stat(uriOf(file));
      return true;
    } catch {
      return false;
    }
  }

  async list(folder: string): Promise<readonly string[] | undefined> {
    try {
      const entries = await vscode.workspace.fs.readDirectory(uriOf(folder));
      return entries.map(([name, type]) => (type & vscode.FileType.Directory ? `${name}/` : name));
    } catch {
      return undefined;
    }
  }

  async pointer(file: string): Promise<Pointer | undefined> {
    const uri = uriOf(file);
    if (this.#onDisk && uri.scheme === "file") return this.#onDisk(uri.fsPath);
    try {
      const { type, size } = await vscode.workspace.fs.stat(uri);
      // A link that leads nowhere is neither file nor folder; where it leads, the editor does not say.
      if (type === vscode.FileType.SymbolicLink) return linkPointer("");
      if (!(type & vscode.FileType.File) || size > MAX_POINTER) return undefined;
      return pointerIn(await vscode.workspace.fs.readFile(uri), size);
    } catch {
      return undefined;
    }
  }

  /** The folder of the workspace that the recipe is in, else the recipe's own folder; and those that the user allows. */
  roots(file: string): readonly string[] {
    const uri = uriOf(file);
    const folder = vscode.workspace.getWorkspaceFolder(uri);
    const allowed = vscode.workspace.isTrusted ? setting("allowedFolders", uri) : [];
    const own = folder ? folder.uri : vscode.Uri.joinPath(uri, "..");
    return [fileOf(own), ...allowed.map((path) => fileOf(vscode.Uri.file(path)))];
  }

  async find(kind: RecipeKind): Promise<readonly string[]> {
    const uris = await vscode.workspace.findFiles(`**/*.${kind}.{yaml,yml}`, undefined, maxRecipes);
    return uris.map(fileOf).toSorted();
  }

  link(file: string, at?: Place): string {
    const fragment = at ? `L${at.line + 1},${at.character + 1}` : "";
    return uriOf(file).with({ fragment }).toString();
  }
}

/** The stamp of each file, by its path, through the editor's file systems. */
export async function stampsOf(paths: Iterable<string>): Promise<Record<string, string>> {
  const stamps = await Promise.all(
    [...new Set(paths)].map(async (path) => {
      const found = await Promise.resolve(vscode.workspace.fs.stat(uriOf(path))).catch(() => undefined);
      return [path, fileStamp(found)] as const;
    }),
  );
  return Object.fromEntries(stamps);
}
