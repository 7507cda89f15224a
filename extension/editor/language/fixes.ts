/** Registers quick fixes. */
import * as vscode from "vscode";
import { fixAll, fixes } from "../../recipe/language/fixes.ts";
import { upgradeFix } from "../../recipe/language/upgrade.ts";
import { toWorkspaceEdit } from "../ranges.ts";
import type { TextServices } from "../services.ts";
import { recipeSelector } from "../uris.ts";

const fixAllKind = vscode.CodeActionKind.SourceFixAll.append("rollbook");

/** Quick fixes, also for problems that another extension reports; and all safe ones at once. */
export function registerFixes({ recipes, t }: TextServices): vscode.Disposable {
  return vscode.languages.registerCodeActionsProvider(
    recipeSelector,
    {
      async provideCodeActions(document, range, context, token) {
        const reading = await recipes.read(document);
        const { document: recipe, problems } = reading;
        if (token.isCancellationRequested) return [];
        const actions: vscode.CodeAction[] = [];
        if (!context.only || context.only.contains(vscode.CodeActionKind.QuickFix)) {
          const span = [document.offsetAt(range.start), document.offsetAt(range.end)] as const;
          for (const fix of fixes(recipe, problems, span, t)) {
            const action = new vscode.CodeAction(fix.title, vscode.CodeActionKind.QuickFix);
            action.edit = toWorkspaceEdit([fix.edits]);
            action.isPreferred = fix.preferred;
            action.diagnostics = context.diagnostics.filter(
              ({ code, range: at }) =>
                typeof code === "object" &&
                code.value === fix.problem.code &&
                document.offsetAt(at.start) === fix.problem.range[0],
            );
            actions.push(action);
          }
          const upgrade = upgradeFix(reading, span, t);
          if (upgrade) {
            const action = new vscode.CodeAction(upgrade.title, vscode.CodeActionKind.QuickFix);
            action.edit = toWorkspaceEdit([upgrade.edits]);
            actions.push(action);
          }
        }
        if (context.only?.intersects(fixAllKind)) {
          const edits = fixAll(recipe, problems, t);
          if (edits) {
            const action = new vscode.CodeAction(t("Fix all problems that have a safe fix"), fixAllKind);
            action.edit = toWorkspaceEdit([edits]);
            actions.push(action);
          }
        }
        return actions;
      },
    },
    { providedCodeActionKinds: [vscode.CodeActionKind.QuickFix, fixAllKind] },
  );
}
