/** Registers go to definition. */
import * as vscode from "vscode";
import { definition } from "../../recipe/language/definition.ts";
import { toRange } from "../ranges.ts";
import type { TextServices } from "../services.ts";
import { recipeSelector, uriOf } from "../uris.ts";

export function registerDefinition({ recipes }: TextServices): vscode.Disposable {
  return vscode.languages.registerDefinitionProvider(recipeSelector, {
    async provideDefinition(document, position, token) {
      const reading = await recipes.read(document);
      if (token.isCancellationRequested) return undefined;
      const found = await definition(reading, document.offsetAt(position), recipes.files, recipes.documents);
      if (!found) return undefined;
      const target: vscode.LocationLink = {
        originSelectionRange: toRange(found.from),
        targetUri: uriOf(found.file),
        targetRange: toRange(found.range),
      };
      return [target];
    },
  });
}
