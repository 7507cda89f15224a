/** Lines of a .gitignore that hide written pictures. */
import { isAbsolute, sep } from "node:path";

/**
 * The lines for the `.gitignore` of a repository's top folder that hide what was written into a folder, and nothing else
 * that lies there: its parts that were written to, or single files.
 * @param folder from the repository's top folder, "" for that folder itself
 * @param files what was written, relative to the folder
 * @returns undefined where the folder lies outside
 */
export function ignoreLines(folder: string, files: readonly string[]): string | undefined {
  const above = folder === "" ? [] : folder.split(sep);
  if (above[0] === ".." || isAbsolute(folder)) return undefined;
  const lines = files.map((file) => {
    const [top = "", ...rest] = file.split(/[\\/]/);
    return `/${[...above, top].map(escaped).join("/")}${rest.length > 0 ? "/" : ""}`;
  });
  return [...new Set(lines)].join("\n");
}

/** A name with the letters that mean something in git's patterns marked as meant. */
const escaped = (name: string): string => name.replace(/[\\*?[\]]|^[!#]| $/g, String.raw`\$&`);
