import * as vscode from "vscode";
import { problemKinds } from "../recipe/problems.ts";
import type { EditorServices } from "./services.ts";

/** Where the page lies: beside the manifest in an installed extension, in docs/ in the project. */
const places = ["diagnostics.md", "docs/diagnostics.md"];

/** Shows a problem's entry in the page of all problems: what its code in the Problems view links to. */
export function registerExplain(context: vscode.ExtensionContext, { log, say }: EditorServices): vscode.Disposable {
  return vscode.commands.registerCommand("rollbook.explainProblem", async (code?: unknown) => {
    const known = typeof code === "string" && Object.hasOwn(problemKinds, code) ? code : await pick(say);
    if (known === undefined) return;
    for (const place of places) {
      const page = vscode.Uri.joinPath(context.extensionUri, place);
      try {
        await vscode.workspace.fs.stat(page);
      } catch {
        continue;
      }
      await vscode.commands.executeCommand("markdown.showPreview", page.with({ fragment: known }));
      return;
    }
    log.error(`None of ${places.join(", ")} is in ${context.extensionUri.toString()}.`);
    void vscode.window.showErrorMessage(
      say("The page about problems is missing from the extension. Install it again."),
    );
  });
}

async function pick(say: EditorServices["say"]): Promise<string | undefined> {
  const items = Object.entries(problemKinds).map(([code, { title }]) => ({ label: title, description: code }));
  const chosen = await vscode.window.showQuickPick(items, {
    title: say("Explain a problem"),
    placeHolder: say("Choose a problem"),
    matchOnDescription: true,
  });
  return chosen?.description;
}
