/** The command that writes a stock from a roll. */
import { basename } from "node:path";
import * as vscode from "vscode";
import { stockText } from "../../work/new-roll/film/stock-text.ts";
import type { EditorServices } from "../services.ts";
import { loadValidRoll } from "./valid-roll.ts";

/** The command: writes the roll's negative and look as a stock's recipe, for the next roll of that film. */
export async function writeStock(given: unknown, services: EditorServices): Promise<void> {
  const found = await loadValidRoll(given, services);
  if (!found) return;
  const { uri, name, reading, workspace } = found;
  const title = await vscode.window.showInputBox({
    title: vscode.l10n.t("Stock from {0} (1/2)", name),
    prompt: vscode.l10n.t("The stock’s name, as it is to stand in its recipe"),
    value: reading.resolved.stock?.title ?? reading.resolved.title ?? "",
    validateInput: (text) => (text.trim() === "" ? vscode.l10n.t("Give the stock a name.") : undefined),
  });
  if (title === undefined) return;
  const stem = basename(uri.path).replace(/\.roll\.ya?ml$/i, "");
  const target = await vscode.window.showSaveDialog({
    title: vscode.l10n.t("Stock from {0} (2/2)", name),
    defaultUri: vscode.Uri.joinPath(uri, "..", `${stem}.stock.yaml`),
    filters: { [vscode.l10n.t("Stocks")]: ["yaml", "yml"] },
    saveLabel: vscode.l10n.t("Write stock"),
  });
  if (!target) return;
  const file = /\.stock\.ya?ml$/i.test(target.path)
    ? target
    : target.with({ path: `${target.path.replace(/(\.stock)?(\.ya?ml)?$/i, "")}.stock.yaml` });
  const isThere = await Promise.resolve(vscode.workspace.fs.stat(file)).then(
    () => true,
    () => false,
  );
  // The dialog asked about the name that was given there, not about the one with its ending put right.
  if (isThere && file !== target)
    return void vscode.window.showErrorMessage(
      vscode.l10n.t("{0} is there already. Choose another name.", vscode.workspace.asRelativePath(file)),
    );
  const text = await stockText(reading.document, reading.resolved, workspace, title.trim());
  const edit = new vscode.WorkspaceEdit();
  edit.createFile(file, { overwrite: isThere, contents: new TextEncoder().encode(text) });
  if (!(await vscode.workspace.applyEdit(edit)))
    return void vscode.window.showErrorMessage(vscode.l10n.t("{0} could not be written.", file.fsPath));
  await vscode.window.showTextDocument(file);
}
