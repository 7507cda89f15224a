/** Quick fixes, all safe corrections at once, and moving a value up to the roll or the stock. */
import { type CodeAction, CodeActionKind, type Connection, type TextDocuments } from "vscode-languageserver/node";
import type { TextDocument } from "vscode-languageserver-textdocument";
import { fixAll, fixes } from "../recipe/language/fixes.ts";
import { type Movable, movable, move } from "../recipe/language/move.ts";
import { upgradeFix } from "../recipe/language/upgrade.ts";
import { english, placeIn } from "../recipe/language/types.ts";
import { toQuickFix, toWorkspaceEdit } from "./convert.ts";
import { isRecipe, type OpenRecipes } from "./recipes.ts";

export const FIX_ALL = `${CodeActionKind.SourceFixAll}.rollbook`;

/** What a move carries until it is chosen: then its edits are worked out. */
interface MoveData {
  readonly uri: string;
  readonly what: Movable;
}

export function answerCodeActions(
  connection: Connection,
  documents: TextDocuments<TextDocument>,
  recipes: OpenRecipes,
): void {
  connection.onCodeAction(async ({ textDocument, range, context }): Promise<CodeAction[]> => {
    const document = documents.get(textDocument.uri);
    if (!document || !isRecipe(textDocument.uri)) return [];
    const reading = await recipes.read(document);
    const { document: recipe, problems } = reading;
    const wants = (kind: string): boolean =>
      !context.only || context.only.some((only) => kind === only || kind.startsWith(`${only}.`));
    const actions: CodeAction[] = [];
    const [start, end] = [document.offsetAt(range.start), document.offsetAt(range.end)];
    if (wants(CodeActionKind.QuickFix)) {
      for (const fix of fixes(recipe, problems, [start, end], english))
        actions.push(toQuickFix(fix, context.diagnostics, placeIn(recipe, fix.problem.range[0]), recipes.uri));
      const upgrade = upgradeFix(reading, [start, end], english);
      if (upgrade)
        actions.push({
          title: upgrade.title,
          kind: CodeActionKind.QuickFix,
          edit: toWorkspaceEdit([upgrade.edits], recipes.uri),
        });
    }
    // Only where it is asked for: editors that save with it would else offer it everywhere.
    const edits = context.only && wants(FIX_ALL) ? fixAll(recipe, problems, english) : undefined;
    if (edits)
      actions.push({
        title: "Correct all that is safe to correct",
        kind: FIX_ALL,
        edit: toWorkspaceEdit([edits], recipes.uri),
      });
    if (wants(CodeActionKind.RefactorMove))
      for (const what of movable(reading, start)) {
        const data: MoveData = { uri: textDocument.uri, what };
        actions.push({ title: `Move ${what.name} to the ${what.target}`, kind: CodeActionKind.RefactorMove, data });
      }
    return actions;
  });

  connection.onCodeActionResolve(async (action): Promise<CodeAction> => {
    const data = action.data as MoveData | undefined;
    const document = data && documents.get(data.uri);
    if (!data || !document) return action;
    const edits = await move(await recipes.read(document), data.what, recipes.library, recipes.files, english);
    if ("problem" in edits) {
      connection.window.showWarningMessage(edits.problem);
      return action;
    }
    return { ...action, edit: toWorkspaceEdit(edits, recipes.uri) };
  });
}
