/** "New Roll from Scans…": asks for stock or film, scans and name, looks the scans through, and opens the recipe. */
import * as vscode from "vscode";
import { schemaLine } from "../../recipe/schema/schema-line.ts";
import { openWorkspace } from "../../work/files/workspace.ts";
import { stockPathOf } from "../../work/new-roll/film/stock-look.ts";
import type { NewRollOptions } from "../../work/new-roll/new-roll.ts";
import type { StartedRoll } from "../../work/new-roll/started-roll.ts";
import type { Pool } from "../../work/pool/pool.ts";
import type { EditorServices } from "../services.ts";
import { setting } from "../settings.ts";
import { askForRoll, type AskedRoll, workspaceRoot } from "./ask-roll.ts";
import { type MeasuredScans, measureScans } from "./measure-scans.ts";

export function registerNewRoll(
  context: vscode.ExtensionContext,
  services: EditorServices,
  pool: Pool,
): vscode.Disposable {
  const command = vscode.commands.registerCommand("rollbook.newRollFromScans", async (chosen?: unknown) => {
    const given = chosen instanceof vscode.Uri ? chosen : undefined;
    const root = workspaceRoot(given);
    if (!root) return;
    const stock = given && /\.stock\.ya?ml$/i.test(given.path) ? given : undefined;
    const title = vscode.l10n.t("New roll from scans");
    const asked = await askForRoll({ title, withFilms: true, ...(stock ? { stock } : {}) }, root, services);
    if (!asked) return;
    const workspace = openWorkspace(root.fsPath);
    const rolls = await measureScans(optionsOf(asked), { workspace, pool, log: services.log });
    if (rolls) await create(rolls, root, services);
  });
  context.subscriptions.push(command);
  return command;
}

function optionsOf({ stock, filmData, film, scans, roll }: AskedRoll): NewRollOptions {
  return {
    folder: scans.fsPath,
    roll: roll.fsPath,
    ...(stock ? { stock: stock.fsPath } : {}),
    ...(filmData === undefined ? {} : { filmData, stock: stockPathOf(filmData, roll.fsPath) }),
    ...(film ? { film } : {}),
  };
}

/** Writes recipes and stocks in one step that can be undone, and opens the first roll. */
async function create(rolls: readonly MeasuredScans[], root: vscode.Uri, services: EditorServices): Promise<void> {
  const schema = setting("newRoll.schema", root);
  const firstLine = (roll: string): string =>
    schema && schemaLine(vscode.Uri.file(roll).path, vscode.Uri.joinPath(root, schema).path);
  const edit = new vscode.WorkspaceEdit();
  const files = new Map(
    rolls.flatMap(({ options, started: { text, filmStock } }) => [
      [options.roll, firstLine(options.roll) + text] as const,
      ...(filmStock ? [[filmStock.path, filmStock.text] as const] : []),
    ]),
  );
  for (const [path, text] of files)
    edit.createFile(vscode.Uri.file(path), { ignoreIfExists: false, contents: new TextEncoder().encode(text) });
  if (!(await vscode.workspace.applyEdit(edit))) {
    const names = [...files.keys()].join(", ");
    void vscode.window.showErrorMessage(
      vscode.l10n.t("{0} could not be written. Nothing that exists is replaced: choose another name.", names),
    );
    return;
  }
  await vscode.window.showTextDocument(vscode.Uri.file(rolls[0].options.roll));
  for (const { started } of rolls) report(started, services);
}

function report(started: StartedRoll, { log }: EditorServices): void {
  const { warnings, unreadable, frames, difference, advice } = started;
  const lines = [...warnings, ...unreadable.map(({ name, reason }) => `${name}: ${reason}`)];
  for (const line of lines) log.warn(line);
  for (const line of advice) log.info(line);
  const unsure = frames.filter(({ found }) => !found || found.confidence < 0.8).length;
  const message = [
    vscode.l10n.t("{0} frames created.", frames.length),
    ...(difference ? [difference.words] : []),
    ...(unsure > 0 ? [vscode.l10n.t("Look at the edges of {0} of them.", unsure)] : []),
    ...lines.slice(0, 1),
  ].join(" ");
  const open = vscode.l10n.t("Open preview");
  const show = vscode.l10n.t("Show log");
  const shown =
    lines.length > 0
      ? vscode.window.showWarningMessage(message, open, show)
      : vscode.window.showInformationMessage(message, open);
  void shown.then((chosen) => {
    if (chosen === open) void vscode.commands.executeCommand("rollbook.openPreview");
    if (chosen === show) log.show();
  });
}
