/** Proposes to create a first roll where a folder holds raw files and no recipe. */
import * as vscode from "vscode";
import type { EditorServices } from "../services.ts";

const SHOWN = "rollbook.firstRoll.shown";

/**
 * Where a folder holds raw files and no recipe, says once how to begin: the Rolls view lies folded below the files, and
 * whoever has just installed the extension does not look for it.
 */
export async function proposeFirstRoll({ recipes }: EditorServices, memory: vscode.Memento): Promise<void> {
  if (!vscode.workspace.isTrusted || !vscode.workspace.workspaceFolders || memory.get(SHOWN)) return;
  for (const kind of ["roll", "stock"] as const) if ((await recipes.files.find(kind)).length > 0) return;
  await memory.update(SHOWN, true);
  const begin = vscode.l10n.t("New Roll from Scans…");
  const later = vscode.l10n.t("Not now");
  const message = vscode.l10n.t("This folder holds raw files and no roll yet. The Rolls view begins one too.");
  if ((await vscode.window.showInformationMessage(message, begin, later)) === begin)
    await vscode.commands.executeCommand("rollbook.newRollFromScans");
}
