/** Quick fixes for findings of the survey. */
import * as vscode from "vscode";
import { findingFixes } from "../../recipe/language/finding-fixes.ts";
import { toRange, toWorkspaceEdit } from "../ranges.ts";
import type { EditorServices } from "../services.ts";
import { recipeSelector } from "../uris.ts";

/** Remedies that are a change of the recipe: dust and sensor dust to heal, a mirrored frame, the flare that was measured. */
export function registerFindingFixes({ recipes, surveys, t }: EditorServices): vscode.Disposable {
  return vscode.languages.registerCodeActionsProvider(
    recipeSelector,
    {
      async provideCodeActions(document, range, context, token) {
        if (context.only && !context.only.contains(vscode.CodeActionKind.QuickFix)) return [];
        const reading = await recipes.read(document);
        const report = surveys.open(reading.document.file);
        if (!report || token.isCancellationRequested) return [];
        const here = surveys.findings(reading).filter((placed) => toRange(placed.range).intersection(range));
        const actions = new Map<string, vscode.CodeAction>();
        for (const placed of here)
          for (const { title, edits } of findingFixes(reading, report, placed, t)) {
            const action = new vscode.CodeAction(title, vscode.CodeActionKind.QuickFix);
            action.edit = toWorkspaceEdit([edits]);
            action.diagnostics = context.diagnostics.filter(
              ({ code, range: at }) =>
                typeof code === "object" &&
                code.value === placed.finding.code &&
                at.start.isEqual(toRange(placed.range).start),
            );
            actions.set(title, action);
          }
        return [...actions.values()];
      },
    },
    { providedCodeActionKinds: [vscode.CodeActionKind.QuickFix] },
  );
}
