/** The text that git compares in place of a recipe: one value a line (`rollbook git-setup` registers it). */
import { badByteIn, decodeRecipe } from "../recipe/yaml/encoding.ts";
import { basename, relative, resolve, sep } from "node:path";
import { recipeListing } from "../recipe/diff/listing.ts";
import { parseRecipe } from "../recipe/problems/document.ts";
import { resolveRoll } from "../recipe/resolve/resolve.ts";
import { loadDocument, type RecipeFiles } from "../recipe/resolve/workspace.ts";
import { readPlainFile } from "../work/files/read-plain-file.ts";
import { openGit } from "../work/review/git/git.ts";
import { openWorkspace } from "../work/files/workspace.ts";
import { EXIT, type Verb } from "./verb.ts";

export const textconv: Verb = {
  name: "textconv",
  internal: true,
  summary: "print a resolved recipe, for git diff",
  usage: "FILE",
  details: "Prints a recipe with every value that follows from it, one a line. Called by git; see git-setup.",
  example: "rollbook textconv harbour.roll.yaml",
  options: {},
  files: [1, 1],
  async run({ files, terminal }) {
    const [path] = files as [string];
    const bytes = readPlainFile(path, { links: "refuse" });
    const text = decodeRecipe(bytes);
    // git gives up the whole comparison when a filter fails: what is not UTF-8 is compared byte by byte.
    if (badByteIn(text)) {
      terminal.bytes(bytes);
      return EXIT.good;
    }
    const { file, around } = await placeOf(path, text);
    const document = parseRecipe(text, { file });
    // What cannot be read is compared as it stands.
    if (!document.wellFormed) {
      for (const line of text.trimEnd().split(/\r?\n/)) terminal.print(line);
      return EXIT.good;
    }
    const { stock, resolved } = await loadDocument(document, around);
    const lines = recipeListing({ roll: document, stock, resolved: resolved ?? resolveRoll(document, stock) });
    for (const line of lines) terminal.print(line);
    terminal.result({ ok: true, file, lines });
    return EXIT.good;
  },
};

/**
 * git hands over a file of the working tree, or a copy of an older state in a folder for temporary files, of which
 * nothing but the name tells what it was. Then the stock is the one of the working tree whose path fits.
 */
async function placeOf(path: string, text: string): Promise<{ file: string; around: RecipeFiles }> {
  const list = (): Promise<undefined> => Promise.resolve(undefined);
  const git = await openGit(process.cwd()).catch(() => undefined);
  const inside = git && relative(git.root, resolve(path)).split(sep).join("/");
  if (git && inside !== undefined && !/^(\.\.|\.git)(\/|$)/.test(inside) && !/^([A-Za-z]:|\/)/.test(inside)) {
    const tree = openWorkspace(git.root);
    return { file: inside, around: { ...tree, list } };
  }
  const name = basename(path);
  const wanted = /^stock:\s*["']?([^"'#\n]+?)["']?\s*(?:#.*)?$/m.exec(text)?.[1];
  const tail = wanted?.replaceAll("\\", "/").replace(/^(\.{1,2}\/)+/, "");
  const known =
    git && tail ? (await git.run("ls-files", "-z", "--cached", "--others", "--exclude-standard")).split("\0") : [];
  const fits = known.filter((file) => tail !== undefined && (file === tail || file.endsWith(`/${tail}`)));
  const read = async (): Promise<string | undefined> =>
    git && fits.length === 1 ? await openWorkspace(git.root).read(fits[0]!) : undefined;
  // As deep as any repository, so that a stock further up is not taken for one outside.
  const file = `${"copy/".repeat(16)}${name}`;
  return { file, around: { read, exists: async () => (await read()) !== undefined, list } };
}
