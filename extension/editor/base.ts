/** The command that writes a base into a recipe that was measured elsewhere. */
import * as vscode from "vscode";
import { changes, fileEdits } from "../recipe/language/edits.ts";
import { toWorkspaceEdit } from "./ranges.ts";
import type { TextServices } from "./services.ts";
import { isRecipe, recipeSelector } from "./uris.ts";

const command = "rollbook.setBase";
const kind = vscode.CodeActionKind.QuickFix;

/** Writes a base that was measured elsewhere, such as with a densitometer, into a recipe. */
export function registerBase({ recipes, t }: TextServices): vscode.Disposable {
  const setBase = async (uri?: vscode.Uri) => {
    const target = uri ?? vscode.window.activeTextEditor?.document.uri;
    if (!target || !isRecipe(target)) return;
    const text = await vscode.window.showInputBox({
      title: t("Set the base"),
      prompt: t("Density of the unexposed, developed film: red, green, blue"),
      placeHolder: "0.31 0.60 0.76",
      validateInput: (input) =>
        readDensities(input) ? undefined : t("Three densities between -1 and 5, separated by spaces."),
    });
    const density = text === undefined ? undefined : readDensities(text);
    if (!density) return;
    const { document } = await recipes.read(await vscode.workspace.openTextDocument(target));
    const made = changes(document, [{ path: ["negative", "base", "density"], value: density }]);
    if (made) await vscode.workspace.applyEdit(toWorkspaceEdit([fileEdits(document, made)]));
    else void vscode.window.showWarningMessage(t("The recipe cannot be edited while it is not valid YAML."));
  };
  return vscode.Disposable.from(
    vscode.commands.registerCommand(command, setBase),
    vscode.languages.registerCodeActionsProvider(
      recipeSelector,
      {
        async provideCodeActions(document, range, context) {
          if (context.only && !context.only.contains(kind)) return [];
          const { document: recipe } = await recipes.read(document);
          const { path } = recipe.pathAt(document.offsetAt(range.start));
          const isHere = path[0] === "negative" && (path.length === 1 || path[1] === "base");
          if (!isHere || !recipe.wellFormed) return [];
          const action = new vscode.CodeAction(
            t("Set the base…"),
            path[1] === "base" ? kind : vscode.CodeActionKind.Refactor,
          );
          action.command = { command, title: action.title, arguments: [document.uri] };
          return [action];
        },
      },
      { providedCodeActionKinds: [kind, vscode.CodeActionKind.Refactor] },
    ),
  );
}

/** Three densities, with blanks or commas between them. */
function readDensities(text: string): readonly [number, number, number] | undefined {
  const values = text
    .trim()
    .split(/[\s,;]+/)
    .map(Number);
  const [red, green, blue] = values;
  if (values.length !== 3 || red === undefined || green === undefined || blue === undefined) return undefined;
  return values.every((value) => Number.isFinite(value) && value >= -1 && value <= 5) ? [red, green, blue] : undefined;
}
