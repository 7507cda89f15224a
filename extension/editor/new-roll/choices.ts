/** What the questions about a new roll offer: stocks, films, kinds of film, folders of scans, names. */
import { basename } from "node:path";
import * as vscode from "vscode";
import { publishedFilms } from "../../engine/film/library/index.ts";
import type { Film } from "../../engine/types.ts";
import { scanFiles } from "../../work/new-roll/scans/sort-scans.ts";
import type { EditorServices } from "../services.ts";
import { uriOf } from "../uris.ts";
import type { Choice } from "./steps.ts";

/** Where the roll's negative comes from: a stock of the workspace, a published film, or the scans alone. */
export type StockChoice = { readonly stock: vscode.Uri } | "library" | "none";

/** @param withLibrary whether a published film may be chosen */
export async function stockChoices({ recipes }: EditorServices, withLibrary: boolean): Promise<Choice<StockChoice>[]> {
  const files = await recipes.files.find("stock");
  const stocks: Choice<StockChoice>[] = await Promise.all(
    files.map(async (file) => {
      const uri = uriOf(file);
      const reading = await recipes.file(uri);
      const value = reading?.document.value as { title?: unknown } | undefined;
      const title = typeof value?.title === "string" ? value.title : basename(file).replace(/\.stock\.ya?ml$/i, "");
      return { label: title, description: vscode.workspace.asRelativePath(uri), value: { stock: uri } };
    }),
  );
  return [
    ...stocks,
    ...(withLibrary
      ? [
          {
            label: vscode.l10n.t("A film by its name…"),
            description: vscode.l10n.t("its stock is written from published data"),
            value: "library" as const,
          },
        ]
      : []),
    {
      label: vscode.l10n.t("No stock"),
      description: vscode.l10n.t("worked out from the scans and published films"),
      value: "none" as const,
    },
  ];
}

/** The films of the library, found by name, speed or kind. */
export const filmChoices = (): Choice<string>[] =>
  publishedFilms.map(({ name, iso, kind, year }) => ({
    label: name,
    description: `ISO ${iso}, ${kindName(kind)}, ${year}`,
    value: name,
  }));

export function kindName(film: Film): string {
  if (film === "slide") return vscode.l10n.t("slide");
  return film === "colour-negative" ? vscode.l10n.t("colour negative") : vscode.l10n.t("black-and-white negative");
}

/** Every kind of film, that of `first` on top. */
export function kindChoices(first?: Film): Choice<Film>[] {
  const kinds: Film[] = ["colour-negative", "black-and-white-negative", "slide"];
  return kinds
    .toSorted((a, b) => Number(b === first) - Number(a === first))
    .map((film) => ({ label: kindName(film), value: film }));
}

/** More files than these are not looked through for folders of scans. */
const MAX_FILES = 5000;

/** Folders that hold several scans, and the dialog for any other (undefined). */
export async function folderChoices(root: vscode.Uri): Promise<Choice<vscode.Uri | undefined>[]> {
  const found = await vscode.workspace.findFiles(new vscode.RelativePattern(root, "**/*"), undefined, MAX_FILES);
  const names = new Map<string, string[]>();
  for (const { path } of found) {
    const at = path.lastIndexOf("/");
    const folder = path.slice(0, at);
    names.set(folder, [...(names.get(folder) ?? []), path.slice(at + 1)]);
  }
  const folders = [...names].flatMap(([path, own]) => {
    const { scans } = scanFiles(own);
    return scans.length > 1 ? [{ uri: root.with({ path }), count: scans.length }] : [];
  });
  return [
    ...folders
      .toSorted((a, b) => (a.uri.path < b.uri.path ? -1 : 1))
      .map(({ uri, count }) => ({
        label: vscode.workspace.asRelativePath(uri),
        description: vscode.l10n.t("{0} scans", count),
        value: uri,
      })),
    { label: vscode.l10n.t("Another folder…"), value: undefined },
  ];
}

export async function browse(root: vscode.Uri): Promise<vscode.Uri | undefined> {
  const picked = await vscode.window.showOpenDialog({
    canSelectFolders: true,
    canSelectFiles: false,
    defaultUri: root,
    openLabel: vscode.l10n.t("Use these scans"),
  });
  return picked?.[0];
}

/** The recipe lies beside the folder of scans, within the workspace. */
export function nearFolder(scans: vscode.Uri, root: vscode.Uri): vscode.Uri {
  const inside = scans.path.startsWith(`${root.path}/`);
  return inside ? vscode.Uri.joinPath(scans, "..") : root;
}

/** "harbour" for harbour/scans: a folder named after what is in it says nothing of the roll. */
export function rollNameOf(scans: vscode.Uri, folder: vscode.Uri): string {
  const own = basename(scans.path);
  return /^(scans?|raw|dng|tiff?|img|dcim|\d+)$/i.test(own) ? basename(folder.path) : own;
}

export async function nameProblem(folder: vscode.Uri, text: string): Promise<string | undefined> {
  const name = text.trim();
  if (!/^[^\\/:*?"<>|]+\.roll\.ya?ml$/i.test(name))
    return vscode.l10n.t("A roll's name ends in .roll.yaml and holds no folders.");
  try {
    await vscode.workspace.fs.stat(vscode.Uri.joinPath(folder, name));
    return vscode.l10n.t("There is a recipe of this name already.");
  } catch {
    return undefined; // the name is free
  }
}
