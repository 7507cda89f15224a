/** `rollbook notes`: writes a table of shooting notes into a roll, and shows first what it would write. */
import type { ImportedValue } from "../recipe/notes/notes-to-edits.ts";
import { importNotes } from "../recipe/notes/notes-to-edits.ts";
import { readNotes } from "../work/notes/read-notes.ts";
import { changeRecipe } from "./change.ts";
import { DRY_RUN_OPTION } from "./dry-run.ts";
import { loadValid, ROOT_OPTION } from "./load.ts";
import { EXIT, flag, UsageError, type Verb } from "./verb.ts";

export const notes: Verb = {
  name: "notes",
  summary: "copy shooting notes from a table into a roll's frames",
  usage: "NOTES.csv ROLL [--write] [--overwrite]",
  details:
    "Reads a table with one row a frame and a first row of headings: frame, then any of title, note, date, time, camera,\n" +
    "lens, focal, aperture, shutter, filter, rated, place, latitude, longitude, developer, caption, keywords, creator,\n" +
    "copyright. It prints what each row would change; with --write that goes into the recipe. A value that the frame\n" +
    "states otherwise stays, unless --overwrite is given. docs/records.md describes the columns.",
  example: "rollbook notes harbour-notes.csv harbour.roll.yaml --write",
  options: {
    write: { help: "write the values into the recipe" },
    overwrite: { help: "replace values that a frame states otherwise" },
    ...DRY_RUN_OPTION,
    ...ROOT_OPTION,
  },
  files: [2, 2],
  async run(call) {
    const { terminal } = call;
    const [file, roll] = call.files;
    const recipe = await loadValid({ ...call, files: [roll] });
    if (!recipe) return EXIT.problems;
    if (recipe.document.kind !== "roll") throw new UsageError(`${roll} is a stock; notes go into a roll.`);
    const table = readNotes(file);
    const found = importNotes(table, recipe.resolved, { overwrite: flag(call, "overwrite") });
    for (const warning of found.warnings) terminal.printError(warning);
    for (const value of found.values) terminal.print(lineOf(value));
    for (const value of found.kept) terminal.print(`${lineOf(value)} (not replaced; --overwrite replaces it)`);
    const write = flag(call, "write") && found.edits.length > 0;
    const { document, workspace, shown } = recipe;
    const written = write && (await changeRecipe(call, workspace.absolute(document.file), document.text, found.edits));
    terminal.print(summaryOf(found.values, written, shown));
    const { values, kept, warnings } = found;
    terminal.result({ ok: true, recipe: shown, notes: file, values, kept, warnings, written });
    return EXIT.good;
  },
};

const shownValue = (value: unknown): string => (typeof value === "string" ? value : JSON.stringify(value));

function lineOf({ frame, path, value, before }: ImportedValue): string {
  const change = before === undefined ? shownValue(value) : `${shownValue(before)} → ${shownValue(value)}`;
  return `frame ${frame}  ${path.join(".")}: ${change}`;
}

function summaryOf(values: readonly ImportedValue[], written: boolean, recipe: string): string {
  if (values.length === 0) return `${recipe} has all that the notes state already.`;
  const frames = new Set(values.map(({ frame }) => frame)).size;
  const count = `${values.length} ${values.length === 1 ? "value" : "values"} of ${frames} ${frames === 1 ? "frame" : "frames"}`;
  return written ? `Wrote ${count} into ${recipe}.` : `${count} would be written into ${recipe}; --write writes them.`;
}
