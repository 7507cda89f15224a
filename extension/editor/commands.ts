/** Commands that need no folder of their own. */
import * as vscode from "vscode";
import type { TextServices } from "./services.ts";
import { isRecipe } from "./uris.ts";

/** Commands that need no part of their own. */
export function registerCommands({ log, recipes, t }: TextServices): vscode.Disposable {
  const register = vscode.commands.registerCommand;
  return vscode.Disposable.from(
    register("rollbook.showLog", () => log.show()),
    register("rollbook.showProblem", showProblem),
    register("rollbook.check", async (uri?: vscode.Uri) => {
      const target = uri ?? vscode.window.activeTextEditor?.document.uri;
      if (!target || !isRecipe(target)) {
        void vscode.window.showInformationMessage(
          t("Open a recipe first: a file whose name ends in .roll.yaml or .stock.yaml."),
        );
        return;
      }
      const document = await vscode.workspace.openTextDocument(target);
      await vscode.window.showTextDocument(document, { preview: false });
      recipes.invalidate();
      await vscode.commands.executeCommand("workbench.actions.view.problems");
    }),
  );
}

/** Goes to a place in a recipe and shows the problem there. */
async function showProblem(uri: vscode.Uri, offset: number): Promise<void> {
  const document = await vscode.workspace.openTextDocument(uri);
  const at = document.positionAt(offset);
  await vscode.window.showTextDocument(document, { selection: new vscode.Range(at, at) });
  await vscode.commands.executeCommand("editor.action.marker.next");
}
