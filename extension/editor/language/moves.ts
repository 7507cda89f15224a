/** Registers moving a value up to the roll or the stock. */
import * as vscode from "vscode";
import { type Movable, movable, move } from "../../recipe/language/move.ts";
import { toWorkspaceEdit } from "../ranges.ts";
import type { TextServices } from "../services.ts";
import { recipeSelector } from "../uris.ts";

const moveKind = vscode.CodeActionKind.RefactorMove;

class MoveAction extends vscode.CodeAction {
  readonly document: vscode.TextDocument;
  readonly movable: Movable;

  constructor(title: string, document: vscode.TextDocument, what: Movable) {
    super(title, moveKind);
    this.document = document;
    this.movable = what;
  }
}

/** "Move … to the roll" and "… to the stock". What they change is worked out only when one is chosen. */
export function registerMoves({ recipes, t }: TextServices): vscode.Disposable {
  const provider: vscode.CodeActionProvider<MoveAction> = {
    async provideCodeActions(document, range, context, token) {
      if (context.only && !context.only.intersects(moveKind)) return [];
      const reading = await recipes.read(document);
      if (token.isCancellationRequested) return [];
      return movable(reading, document.offsetAt(range.start)).map((what) => {
        const title =
          what.target === "roll" ? t("Move {0} to the roll", what.name) : t("Move {0} to the stock", what.name);
        return new MoveAction(title, document, what);
      });
    },
    async resolveCodeAction(action) {
      const reading = await recipes.read(action.document);
      const edits = await move(reading, action.movable, recipes.documents, recipes.files, t);
      if ("problem" in edits) void vscode.window.showWarningMessage(edits.problem);
      else action.edit = toWorkspaceEdit(edits);
      return action;
    },
  };
  return vscode.languages.registerCodeActionsProvider(recipeSelector, provider, {
    providedCodeActionKinds: [moveKind],
  });
}
