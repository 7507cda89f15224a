/** Registers hovers. */
import * as vscode from "vscode";
import { hover } from "../../recipe/language/hover.ts";
import { toRange } from "../ranges.ts";
import type { TextServices } from "../services.ts";
import { recipeSelector } from "../uris.ts";

export function registerHover({ recipes, t }: TextServices): vscode.Disposable {
  return vscode.languages.registerHoverProvider(recipeSelector, {
    async provideHover(document, position, token) {
      const reading = await recipes.read(document);
      if (token.isCancellationRequested) return undefined;
      const found = hover(reading, document.offsetAt(position), recipes.files, t);
      return found && new vscode.Hover(new vscode.MarkdownString(found.contents), toRange(found.range));
    },
  });
}
