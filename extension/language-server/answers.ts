/** Answers a client's requests about an open recipe, as the recipe room has them. */
import { type Connection, FoldingRangeKind, MarkupKind, type Range, ResponseError } from "vscode-languageserver/node";
import type { TextDocument } from "vscode-languageserver-textdocument";
import { wholeChange } from "../recipe/edit/changes.ts";
import { formatRecipe } from "../recipe/edit/layout/format.ts";
import { completions } from "../recipe/language/completion/completions.ts";
import { definition } from "../recipe/language/definition.ts";
import { fileEdits } from "../recipe/language/edits.ts";
import { folds } from "../recipe/language/folding.ts";
import { hover } from "../recipe/language/hover.ts";
import { inlays } from "../recipe/language/inlays.ts";
import { links } from "../recipe/language/links.ts";
import { rename, renameable } from "../recipe/language/rename.ts";
import { symbols } from "../recipe/language/symbols.ts";
import { english } from "../recipe/language/types.ts";
import { toCompletion, toSymbol, toWorkspaceEdit } from "./convert.ts";
import { isRecipe, type OpenRecipes } from "./recipes.ts";

/** JSON-RPC's own code for a request that cannot be done. */
const REQUEST_FAILED = -32803;

/** Runs an answer on the recipe at an address; null for documents that are not open or no recipe. */
export type ForRecipe = <T>(uri: string, answer: (document: TextDocument) => Promise<T>) => Promise<T | null>;

/** @param find returns the open document at an address */
export function forRecipes(find: (uri: string) => TextDocument | undefined): ForRecipe {
  return async (uri, answer) => {
    const document = find(uri);
    return document && isRecipe(uri) ? answer(document) : null;
  };
}

/** Hovers, completions and definitions. @param hasSnippets whether the client fills in snippets */
export function answerAtCursor(
  connection: Connection,
  recipes: OpenRecipes,
  forRecipe: ForRecipe,
  hasSnippets: () => boolean,
): void {
  connection.onHover(({ textDocument, position }) =>
    forRecipe(textDocument.uri, async (document) => {
      const found = hover(await recipes.read(document), document.offsetAt(position), recipes.files, english);
      return found ? { contents: { kind: MarkupKind.Markdown, value: found.contents }, range: found.range } : null;
    }),
  );
  connection.onCompletion(({ textDocument, position }) =>
    forRecipe(textDocument.uri, async (document) => {
      const reading = await recipes.read(document);
      const { text } = reading.document;
      const found = await completions(text, document.offsetAt(position), reading, recipes.files, english);
      return found.map((one) => toCompletion(one, hasSnippets()));
    }),
  );
  connection.onDefinition(({ textDocument, position }) =>
    forRecipe(textDocument.uri, async (document) => {
      const reading = await recipes.read(document);
      const found = await definition(reading, document.offsetAt(position), recipes.files, recipes.library);
      return found ? { uri: recipes.uri(found.file), range: found.range } : null;
    }),
  );
}

/** Links, outline, folds, inlay hints and the canonical layout. */
export function answerForWhole(connection: Connection, recipes: OpenRecipes, forRecipe: ForRecipe): void {
  connection.onDocumentLinks(({ textDocument }) =>
    forRecipe(textDocument.uri, async (document) => {
      const reading = await recipes.read(document);
      return links(reading.document, recipes.files)
        .filter(({ file }) => !reading.missing.has(file))
        .map(({ range, file }) => ({ range, target: recipes.uri(file) }));
    }),
  );
  connection.onDocumentSymbol(({ textDocument }) =>
    forRecipe(textDocument.uri, async (document) => symbols((await recipes.read(document)).document).map(toSymbol)),
  );
  connection.onFoldingRanges(({ textDocument }) =>
    forRecipe(textDocument.uri, async (document) =>
      folds((await recipes.read(document)).document).map(({ start, end, kind }) => ({
        startLine: start,
        endLine: end,
        kind: kind && FoldingRangeKind.Comment,
      })),
    ),
  );
  connection.languages.inlayHint.on(({ textDocument, range }) =>
    forRecipe(textDocument.uri, async (document) =>
      inlays(await recipes.read(document), [range.start.line, range.end.line], english).map(
        ({ at, label, tooltip, origin }) => ({
          position: at,
          label: [
            { value: label, tooltip, location: origin && { uri: recipes.uri(origin.file), range: rangeAt(origin) } },
          ],
          paddingLeft: true,
        }),
      ),
    ),
  );
  connection.onDocumentFormatting(({ textDocument }) =>
    forRecipe(textDocument.uri, async (document) => {
      const { document: recipe } = await recipes.read(document);
      const formatted = formatRecipe(recipe.text, { file: recipe.file });
      const { edits } = fileEdits(recipe, wholeChange(recipe.text, formatted));
      return edits.map(({ range, text }) => ({ range, newText: text }));
    }),
  );
}

/** Renaming a frame. */
export function answerRenaming(connection: Connection, recipes: OpenRecipes, forRecipe: ForRecipe): void {
  connection.onPrepareRename(({ textDocument, position }) =>
    forRecipe(textDocument.uri, async (document) => {
      const { document: recipe } = await recipes.read(document);
      const found = renameable(recipe, document.offsetAt(position));
      return found ? { range: found.range, placeholder: found.id } : null;
    }),
  );
  connection.onRenameRequest(({ textDocument, position, newName }) =>
    forRecipe(textDocument.uri, async (document) => {
      const { document: recipe } = await recipes.read(document);
      const edits = rename(recipe, document.offsetAt(position), newName, english);
      if ("problem" in edits) throw new ResponseError(REQUEST_FAILED, edits.problem);
      return toWorkspaceEdit([edits], recipes.uri);
    }),
  );
}

/** The place of a value whose line and column count from 1. */
function rangeAt({ line, column }: { readonly line: number; readonly column: number }): Range {
  const start = { line: line - 1, character: column - 1 };
  return { start, end: start };
}
