/** The folder that a roll's pictures are exported to, remembered roll by roll. */
import * as vscode from "vscode";

const keyOf = (roll: vscode.Uri): string => `rollbook.export.folder ${roll.toString()}`;

/** Asks for a folder; the first proposal is the last one, else the folder that holds the recipe. */
export async function askOutputFolder(
  roll: vscode.Uri,
  memory: vscode.Memento,
  title: string,
): Promise<string | undefined> {
  const last = memory.get<string>(keyOf(roll));
  const [folder] =
    (await vscode.window.showOpenDialog({
      canSelectFolders: true,
      canSelectFiles: false,
      defaultUri: last === undefined ? vscode.Uri.joinPath(roll, "..") : vscode.Uri.file(last),
      openLabel: vscode.l10n.t("Export here"),
      title,
    })) ?? [];
  if (!folder) return undefined;
  await memory.update(keyOf(roll), folder.fsPath);
  return folder.fsPath;
}
