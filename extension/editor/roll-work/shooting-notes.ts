/** Import Shooting Notes…: asks for a table, shows what it would write, then writes it as one edit. */
import * as vscode from "vscode";
import { basename } from "node:path";
import { errorText } from "../../scans/files/system-errors.ts";
import { type ImportedNotes, importNotes } from "../../recipe/notes/notes-to-edits.ts";
import { readNotes } from "../../work/notes/read-notes.ts";
import type { EditorServices } from "../services.ts";
import { writeValues } from "./recipe-edits.ts";
import { loadValidRoll } from "./valid-roll.ts";

/** The command: shows what a table of shooting notes would change in a roll, and writes it as one edit where that is wanted. */
export async function shootingNotes(given: unknown, services: EditorServices): Promise<void> {
  const found = await loadValidRoll(given, services);
  if (!found) return;
  const { uri, name, reading } = found;
  const picked = await vscode.window.showOpenDialog({
    title: vscode.l10n.t("Shooting Notes of {0}", name),
    openLabel: vscode.l10n.t("Read notes"),
    defaultUri: vscode.Uri.joinPath(uri, ".."),
    canSelectMany: false,
    filters: { [vscode.l10n.t("Tables")]: ["csv", "tsv", "txt"] },
  });
  const file = picked?.[0];
  if (!file) return;
  let notes: ImportedNotes;
  let all: ImportedNotes;
  try {
    const table = readNotes(file.fsPath);
    notes = importNotes(table, reading.resolved);
    all = importNotes(table, reading.resolved, { overwrite: true });
  } catch (error) {
    return void vscode.window.showErrorMessage(errorText(error));
  }
  for (const warning of notes.warnings) services.log.warn(`${basename(file.fsPath)}: ${warning}`);
  const chosen = await ask(name, notes, all);
  if (!chosen || !(await writeValues(uri, chosen.edits, services))) return;
  void vscode.window.showInformationMessage(
    vscode.l10n.t("{0} values were written into {1}.", chosen.values.length, name),
  );
}

/** Asks before anything is written. Undefined where nothing is to be written. */
async function ask(name: string, notes: ImportedNotes, all: ImportedNotes): Promise<ImportedNotes | undefined> {
  if (all.values.length === 0) {
    const nothing = vscode.l10n.t("{0} has all that the notes state already.", name);
    void vscode.window.showInformationMessage([nothing, ...notes.warnings].join(" "));
    return undefined;
  }
  const write = vscode.l10n.t("Write {0} values", notes.values.length);
  const replace =
    notes.values.length === 0
      ? vscode.l10n.t("Replace {0} values", notes.kept.length)
      : vscode.l10n.t("Write {0} and replace {1}", notes.values.length, notes.kept.length);
  const buttons = [...(notes.values.length > 0 ? [write] : []), ...(notes.kept.length > 0 ? [replace] : [])];
  const answer = await vscode.window.showInformationMessage(
    vscode.l10n.t("Write these notes into {0}?", name),
    { modal: true, detail: detailOf(notes) },
    ...buttons,
  );
  return answer === write ? notes : answer === replace ? all : undefined;
}

/** Lines that a dialog shows, and letters of each: more lines go into a count, more letters into dots. */
const [MAX_LINES, MAX_LETTERS] = [18, 160];

function detailOf({ values, kept, warnings }: ImportedNotes): string {
  const line = ({ frame, path, value }: ImportedNotes["values"][number]): string =>
    `${frame}  ${path.join(".")}: ${typeof value === "string" ? value : JSON.stringify(value)}`;
  const lines = [
    ...values.map(line),
    ...kept.map((value) => vscode.l10n.t("{0} (the frame states another value)", line(value))),
    ...warnings,
  ];
  const shown = lines.map((text) => (text.length > MAX_LETTERS ? `${text.slice(0, MAX_LETTERS - 1)}…` : text));
  const rest = shown.length - MAX_LINES;
  return (rest > 0 ? [...shown.slice(0, MAX_LINES), vscode.l10n.t("and {0} more", rest)] : shown).join("\n");
}
