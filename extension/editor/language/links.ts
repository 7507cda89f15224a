/** Registers links to the files that a recipe names. */
import * as vscode from "vscode";
import { links } from "../../recipe/language/links.ts";
import { toRange } from "../ranges.ts";
import type { TextServices } from "../services.ts";
import { recipeSelector, uriOf } from "../uris.ts";

export function registerLinks({ recipes, t }: TextServices): vscode.Disposable {
  return vscode.languages.registerDocumentLinkProvider(recipeSelector, {
    async provideDocumentLinks(document, token) {
      const reading = await recipes.read(document);
      if (token.isCancellationRequested) return [];
      return links(reading.document, recipes.files)
        .filter(({ file }) => !reading.missing.has(file))
        .map(({ range, file, kind }) => {
          const link = new vscode.DocumentLink(toRange(range), uriOf(file));
          link.tooltip = kind === "stock" ? t("Open the stock") : t("Open the scan");
          return link;
        });
    },
  });
}
