/** Registers the canonical layout as the editor's formatter. */
import { recipeText } from "../files.ts";
import * as vscode from "vscode";
import { formatRecipe } from "../../recipe/edit/layout/format.ts";
import type { TextServices } from "../services.ts";
import { setting } from "../settings.ts";
import { fileOf, recipeSelector } from "../uris.ts";

/** The canonical layout through the editor's own formatter, so on saving too for those who want that. */
export function registerFormatting({ log }: TextServices): vscode.Disposable {
  return vscode.languages.registerDocumentFormattingEditProvider(recipeSelector, {
    provideDocumentFormattingEdits(document) {
      if (!setting("format.enable", document)) return [];
      const text = recipeText(document);
      const formatted = formatRecipe(text, { file: fileOf(document.uri) });
      if (formatted === text) return [];
      log.debug(`Formatted ${document.uri.toString()}.`);
      // The editor itself reduces this to what changed.
      const whole = new vscode.Range(document.positionAt(0), document.positionAt(text.length));
      return [vscode.TextEdit.replace(whole, formatted)];
    },
  });
}
