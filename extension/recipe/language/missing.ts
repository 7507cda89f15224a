/** Suggests names of files where the stated one was not found. */
import type { RecipeDocument } from "../problems/document.ts";
import { nearest } from "../problems/nearest.ts";
import { folderOf } from "../paths.ts";
import type { Problem } from "../problems.ts";
import { mayBeProfileName, mayBeScanName } from "../scan-names.ts";
import type { RecipeWorkspace } from "./workspace.ts";

/** Names of files that are meant, perhaps, where the one that is stated was not found. */
export async function withSuggestions(
  document: RecipeDocument,
  problems: readonly Problem[],
  workspace: RecipeWorkspace,
): Promise<Problem[]> {
  const out: Problem[] = [];
  const folders = new Map<string, readonly string[]>();
  let stocks: readonly string[] | undefined;
  for (const found of problems) {
    const file = found.data?.file;
    let suggestion: string | undefined;
    if (file !== undefined && found.code === "missing-scan") {
      const folder = folderOf(file);
      let names = folders.get(folder);
      if (!names) folders.set(folder, (names = ((await workspace.list(folder)) ?? []).filter(mayBeScanName)));
      const name = nameOf(file);
      suggestion = names.find((one) => one.toLowerCase() === name.toLowerCase()) ?? closest(name, names);
    } else if (file !== undefined && found.code === "missing-profile") {
      const folder = folderOf(file);
      const names = ((await workspace.list(folder)) ?? []).filter(mayBeProfileName);
      const name = nearest(nameOf(file), names);
      suggestion = name && relativePath(document.file, folder === "" ? name : `${folder}/${name}`);
    } else if (file !== undefined && found.code === "missing-stock") {
      stocks ??= await workspace.find("stock");
      const meant = stocks.find((one) => nameOf(one) === nameOf(file)) ?? closestFile(file, stocks);
      suggestion = meant && relativePath(document.file, meant);
    }
    out.push(suggestion === undefined ? found : { ...found, data: { ...found.data, suggestion } });
  }
  return out;
}

export const nameOf = (file: string): string => file.slice(file.lastIndexOf("/") + 1);

/** Scans are numbered: a name that differs in its digits is another scan, not a misspelt one. */
function closest(name: string, names: readonly string[]): string | undefined {
  const digits = (text: string) => text.replaceAll(/\D/g, "");
  return nearest(
    name,
    names.filter((one) => digits(one) === digits(name)),
  );
}

function closestFile(file: string, files: readonly string[]): string | undefined {
  const name = nearest(nameOf(file), files.map(nameOf));
  return files.find((one) => nameOf(one) === name);
}

/** The path from one file to another, with / and, where needed, dots. */
export function relativePath(from: string, to: string): string {
  const start = folderOf(from).split("/");
  const way = to.split("/");
  let same = 0;
  while (same < start.length && same < way.length - 1 && start[same] === way[same]) same++;
  return [
    ...start
      .slice(same)
      .filter(Boolean)
      .map(() => ".."),
    ...way.slice(same),
  ].join("/");
}
