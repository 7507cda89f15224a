/** Registers the outline. */
import * as vscode from "vscode";
import { type Symbol, symbols } from "../../recipe/language/symbols.ts";
import { toRange } from "../ranges.ts";
import type { TextServices } from "../services.ts";
import { recipeSelector } from "../uris.ts";

const kinds = {
  section: vscode.SymbolKind.Module,
  frame: vscode.SymbolKind.Class,
  value: vscode.SymbolKind.Property,
} as const;

export function registerSymbols({ recipes }: TextServices): vscode.Disposable {
  return vscode.languages.registerDocumentSymbolProvider(
    recipeSelector,
    {
      async provideDocumentSymbols(document, token) {
        const reading = await recipes.read(document);
        return token.isCancellationRequested ? [] : symbols(reading.document).map(toSymbol);
      },
    },
    { label: "Rollbook" },
  );
}

function toSymbol({ name, detail, kind, range, selection, children }: Symbol): vscode.DocumentSymbol {
  const made = new vscode.DocumentSymbol(name, detail, kinds[kind], toRange(range), toRange(selection));
  made.children = children.map(toSymbol);
  return made;
}
