/** Registers folding. */
import * as vscode from "vscode";
import { folds } from "../../recipe/language/folding.ts";
import type { TextServices } from "../services.ts";
import { recipeSelector } from "../uris.ts";

export function registerFolding({ recipes }: TextServices): vscode.Disposable {
  return vscode.languages.registerFoldingRangeProvider(recipeSelector, {
    async provideFoldingRanges(document, _context, token) {
      const reading = await recipes.read(document);
      if (token.isCancellationRequested) return undefined;
      return folds(reading.document).map(
        ({ start, end, kind }) => new vscode.FoldingRange(start, end, kind && vscode.FoldingRangeKind.Comment),
      );
    },
  });
}
