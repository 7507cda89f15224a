/**
 * Switches git's own comparing and merging of recipes on and off. The only part that writes for git: settings, no history.
 * In a dry run both report what they would do, and do nothing.
 */
import { existsSync } from "node:fs";
import { readFile, unlink } from "node:fs/promises";
import { isAbsolute, join } from "node:path";
import { writeAtomic } from "../../../scans/files/atomic.ts";
import type { Git } from "./git.ts";

const BEGIN = "# rollbook: recipes are compared and merged by their values";
const END = "# rollbook: end";
const PATTERNS = ["*.roll.yaml", "*.roll.yml", "*.stock.yaml", "*.stock.yml"];
const SECTIONS = ["diff.rollbook", "merge.rollbook"];

/** What can be switched on by itself. */
export type Part = "diff" | "merge";

/** What was written or taken away, or in a dry run would be, one sentence each. */
export type Done = readonly string[];

/**
 * Replaces whatever an earlier call wrote.
 * @param command the program with its first arguments, as a shell reads it; git runs its drivers through a shell
 * @param shared write the attributes into .gitattributes, for everybody, in place of this clone alone
 */
export async function switchOn(
  git: Git,
  command: string,
  { shared, parts, dry = false }: { readonly shared: boolean; readonly parts: readonly Part[]; readonly dry?: boolean },
): Promise<Done> {
  if (!dry) await switchOff(git);
  const every: readonly (readonly [key: string, value: string])[] = [
    ["diff.rollbook.textconv", `${command} textconv`],
    ["diff.rollbook.xfuncname", "^((roll|stock|frame|output|locks)( .*)?)$"],
    ["merge.rollbook.name", "recipes by their values"],
    ["merge.rollbook.driver", `${command} merge-driver %O %A %B --marker %L --path %P`],
  ];
  const settings = every.filter(([key]) => parts.some((part) => key.startsWith(`${part}.`)));
  const attributes = parts.map((part) => `${part}=rollbook`).join(" ");
  const file = await attributesFile(git, shared);
  if (!dry) {
    for (const [key, value] of settings) await git.run("config", "--local", "--replace-all", key, value);
    const block = [BEGIN, ...PATTERNS.map((pattern) => `${pattern} ${attributes}`), END, ""].join("\n");
    const old = withoutBlock(await read(file));
    await writeAtomic(file, `${old}${old === "" || old.endsWith("\n") ? "" : "\n"}${block}`);
  }
  return [
    ...settings.map(([key, value]) => `In the clone's configuration: ${key} = ${value}`),
    `In ${shown(git, file)}: ${PATTERNS.join(", ")} with ${attributes}`,
  ];
}

/** Takes away exactly what `switchOn` wrote, in both places. */
export async function switchOff(git: Git, { dry = false }: { readonly dry?: boolean } = {}): Promise<Done> {
  const done: string[] = [];
  for (const section of SECTIONS) {
    const there = await git.tryRun("config", "--local", "--get-regexp", `^${section.replace(".", "\\.")}\\.`);
    if (there === undefined) continue;
    if (!dry) await git.run("config", "--local", "--remove-section", section);
    done.push(`From the clone's configuration: the section ${section}`);
  }
  for (const file of [await attributesFile(git, false), await attributesFile(git, true)]) {
    const text = await read(file);
    const rest = withoutBlock(text);
    if (rest === text) continue;
    if (!dry && rest.trim() === "") await unlink(file);
    else if (!dry) await writeAtomic(file, rest);
    done.push(`From ${shown(git, file)}: the lines about recipes`);
  }
  return done;
}

async function attributesFile(git: Git, shared: boolean): Promise<string> {
  if (shared) return join(git.root, ".gitattributes");
  const path = (await git.run("rev-parse", "--git-path", "info/attributes")).replace(/\r?\n$/, "");
  return isAbsolute(path) ? path : join(git.root, path);
}

const read = async (file: string): Promise<string> => (existsSync(file) ? await readFile(file, "utf8") : "");

function withoutBlock(text: string): string {
  const from = text.indexOf(BEGIN);
  const end = text.indexOf(END, from);
  if (from < 0 || end < 0) return text;
  const after = text.indexOf("\n", end);
  return text.slice(0, from) + (after < 0 ? "" : text.slice(after + 1));
}

const shown = ({ root }: Git, file: string): string => (file.startsWith(root) ? file.slice(root.length + 1) : file);
