/** Loads the roll that a command works on, if it has no errors. */
import * as vscode from "vscode";
import { hasErrors } from "../../recipe/problems.ts";
import type { Reading } from "../../recipe/language/document-cache.ts";
import { openWorkspace, type Workspace } from "../../work/files/workspace.ts";
import type { EditorServices } from "../services.ts";
import { targetUri } from "../panels/active-roll.ts";

/** A roll without errors, as its text is now, with the folder that it may not leave. */
export interface LoadedRoll {
  readonly uri: vscode.Uri;
  /** Path for people, from the workspace's folder. */
  readonly name: string;
  readonly reading: Reading;
  readonly workspace: Workspace;
}

/**
 * The roll that a menu, a row of the Rolls view, or the active editor names, unsaved changes included.
 * @returns undefined where it names none or the recipe has errors; the person has been told
 */
export async function loadValidRoll(given: unknown, { recipes }: EditorServices): Promise<LoadedRoll | undefined> {
  const uri = targetUri(given);
  if (!uri || !/\.roll\.ya?ml$/i.test(uri.path)) {
    void vscode.window.showInformationMessage(
      vscode.l10n.t("Open a roll’s recipe (*.roll.yaml) first, or choose one in the Rolls view."),
    );
    return undefined;
  }
  const name = vscode.workspace.asRelativePath(uri);
  if (uri.scheme !== "file") {
    void vscode.window.showInformationMessage(
      vscode.l10n.t("Save {0} on a disk first: its scans are found from there.", name),
    );
    return undefined;
  }
  const reading = await recipes.read(await vscode.workspace.openTextDocument(uri));
  if (hasErrors(reading.problems)) {
    const show = vscode.l10n.t("Show problems");
    const message = vscode.l10n.t("{0} has errors. Fix them first.", name);
    if ((await vscode.window.showErrorMessage(message, show)) === show) {
      await vscode.window.showTextDocument(uri);
      await vscode.commands.executeCommand("workbench.actions.view.problems");
    }
    return undefined;
  }
  const folder = vscode.workspace.getWorkspaceFolder(uri)?.uri ?? vscode.Uri.joinPath(uri, "..");
  return { uri, name, reading, workspace: openWorkspace(folder.fsPath) };
}
