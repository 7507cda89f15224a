/** Registers completions. */
import { recipeText } from "../files.ts";
import * as vscode from "vscode";
import type { Completion } from "../../recipe/language/completion/completion.ts";
import { completions } from "../../recipe/language/completion/completions.ts";
import { toRange } from "../ranges.ts";
import type { TextServices } from "../services.ts";
import { recipeSelector } from "../uris.ts";

const kinds = {
  section: vscode.CompletionItemKind.Module,
  key: vscode.CompletionItemKind.Property,
  value: vscode.CompletionItemKind.Value,
  frame: vscode.CompletionItemKind.Class,
  file: vscode.CompletionItemKind.File,
  folder: vscode.CompletionItemKind.Folder,
} as const;

/** Proposals while typing. They do not wait for the text to be read: the caret's place is told from the text as it is. */
export function registerCompletion({ recipes, t }: TextServices): vscode.Disposable {
  return vscode.languages.registerCompletionItemProvider(
    recipeSelector,
    {
      async provideCompletionItems(document, position, token) {
        const reading = await recipes.recent(document);
        if (token.isCancellationRequested) return [];
        const found = await completions(recipeText(document), document.offsetAt(position), reading, recipes.files, t);
        return found.map((one) => toItem(one, document, position));
      },
    },
    ":",
    " ",
    '"',
    "/",
    "{",
    "[",
    ",",
  );
}

function toItem(found: Completion, document: vscode.TextDocument, position: vscode.Position): vscode.CompletionItem {
  const item = new vscode.CompletionItem(found.label, kinds[found.kind]);
  const range = toRange(found.range);
  item.detail = found.detail;
  item.documentation = found.documentation === undefined ? undefined : new vscode.MarkdownString(found.documentation);
  item.insertText = new vscode.SnippetString(found.snippet);
  // What stands before the caret decides what fits, quotes included.
  item.filterText = document.getText(range.with({ end: position })).startsWith('"')
    ? JSON.stringify(found.label.replaceAll('"', ""))
    : found.label;
  item.range = { inserting: range.with({ end: position }), replacing: range };
  item.sortText = found.sort;
  if (found.again) item.command = { command: "editor.action.triggerSuggest", title: "" };
  return item;
}
