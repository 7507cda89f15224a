/** The language server: what the recipe room offers an editor, over the Language Server Protocol. */
import {
  type ClientCapabilities,
  CodeActionKind,
  createConnection,
  DidChangeWatchedFilesNotification,
  FoldingRangeKind,
  type InitializeResult,
  MarkupKind,
  type Range,
  ResponseError,
  TextDocuments,
  TextDocumentSyncKind,
} from "vscode-languageserver/node";
import { TextDocument } from "vscode-languageserver-textdocument";
import { wholeChange } from "../recipe/edit/changes.ts";
import { formatRecipe } from "../recipe/edit/layout/format.ts";
import { definition } from "../recipe/language/definition.ts";
import { fileEdits } from "../recipe/language/edits.ts";
import { folds } from "../recipe/language/folding.ts";
import { hover } from "../recipe/language/hover.ts";
import { inlays } from "../recipe/language/inlays.ts";
import { links } from "../recipe/language/links.ts";
import { rename, renameable } from "../recipe/language/rename.ts";
import { symbols } from "../recipe/language/symbols.ts";
import { english } from "../recipe/language/types.ts";
import { completions } from "../recipe/language/completion/completions.ts";
import { VERSION } from "../work/files/version.ts";
import { answerCodeActions, FIX_ALL } from "./code-actions.ts";
import { toCompletion, toSymbol, toWorkspaceEdit } from "./convert.ts";
import { fileOf } from "./files.ts";
import { publishProblems } from "./problems.ts";
import { isRecipe, OpenRecipes } from "./recipes.ts";

/** What a client may ask for when it starts the server. */
interface Options {
  /** false leaves out warnings of scans that were not found. */
  readonly missingScans?: boolean;
}

/** JSON-RPC's own code for a request that cannot be done. */
const REQUEST_FAILED = -32803;

/** Serves one client. The process ends when the client asks for it, or is gone. */
export function serve(input: NodeJS.ReadableStream, output: NodeJS.WritableStream): void {
  const connection = createConnection(input, output);
  const documents = new TextDocuments(TextDocument);
  let folders: readonly string[] = [];
  let client: ClientCapabilities = {};
  let options: Options = {};
  const recipes = new OpenRecipes(documents, () => folders);
  const problems = publishProblems(connection, documents, recipes, () => options.missingScans !== false);

  connection.onInitialize(({ capabilities, workspaceFolders, rootUri, initializationOptions }): InitializeResult => {
    client = capabilities;
    options = (initializationOptions as Options | undefined) ?? {};
    folders = (workspaceFolders?.map(({ uri }) => uri) ?? (rootUri ? [rootUri] : [])).map(fileOf);
    return { serverInfo: { name: "rollbook", version: VERSION }, capabilities: CAPABILITIES };
  });
  connection.onInitialized(() => {
    if (client.workspace?.workspaceFolders)
      connection.workspace.onDidChangeWorkspaceFolders(({ added, removed }) => {
        const gone = new Set(removed.map(({ uri }) => fileOf(uri)));
        folders = [...folders.filter((folder) => !gone.has(folder)), ...added.map(({ uri }) => fileOf(uri))];
        problems.invalidate();
      });
    if (client.workspace?.didChangeWatchedFiles?.dynamicRegistration)
      void connection.client.register(DidChangeWatchedFilesNotification.type, { watchers: [{ globPattern: "**/*" }] });
  });
  connection.onDidChangeWatchedFiles(() => problems.invalidate());

  /** Answers for a recipe that is open; nothing for other documents. */
  const forRecipe = async <T>(uri: string, answer: (document: TextDocument) => Promise<T>): Promise<T | null> => {
    const document = documents.get(uri);
    return document && isRecipe(uri) ? answer(document) : null;
  };

  connection.onHover(({ textDocument, position }) =>
    forRecipe(textDocument.uri, async (document) => {
      const found = hover(await recipes.read(document), document.offsetAt(position), recipes.files, english);
      return found ? { contents: { kind: MarkupKind.Markdown, value: found.contents }, range: found.range } : null;
    }),
  );
  connection.onCompletion(({ textDocument, position }) =>
    forRecipe(textDocument.uri, async (document) => {
      const { text } = (await recipes.read(document)).document;
      const reading = await recipes.read(document);
      const found = await completions(text, document.offsetAt(position), reading, recipes.files, english);
      const snippets = client.textDocument?.completion?.completionItem?.snippetSupport === true;
      return found.map((one) => toCompletion(one, snippets));
    }),
  );
  connection.onDefinition(({ textDocument, position }) =>
    forRecipe(textDocument.uri, async (document) => {
      const reading = await recipes.read(document);
      const found = await definition(reading, document.offsetAt(position), recipes.files, recipes.library);
      return found ? { uri: recipes.uri(found.file), range: found.range } : null;
    }),
  );
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
  connection.onDocumentFormatting(({ textDocument }) =>
    forRecipe(textDocument.uri, async (document) => {
      const { document: recipe } = await recipes.read(document);
      const formatted = formatRecipe(recipe.text, { file: recipe.file });
      const { edits } = fileEdits(recipe, wholeChange(recipe.text, formatted));
      return edits.map(({ range, text }) => ({ range, newText: text }));
    }),
  );
  answerCodeActions(connection, documents, recipes);
  documents.listen(connection);
  connection.listen();
}

/** The place of a value whose line and column count from 1. */
function rangeAt({ line, column }: { readonly line: number; readonly column: number }): Range {
  const start = { line: line - 1, character: column - 1 };
  return { start, end: start };
}

const CAPABILITIES: InitializeResult["capabilities"] = {
  textDocumentSync: TextDocumentSyncKind.Incremental,
  hoverProvider: true,
  completionProvider: { triggerCharacters: [":", " ", '"', "/", "{", "[", ","] },
  definitionProvider: true,
  documentLinkProvider: {},
  documentSymbolProvider: { label: "Rollbook" },
  foldingRangeProvider: true,
  inlayHintProvider: true,
  renameProvider: { prepareProvider: true },
  documentFormattingProvider: true,
  codeActionProvider: {
    codeActionKinds: [CodeActionKind.QuickFix, CodeActionKind.RefactorMove, FIX_ALL],
    resolveProvider: true,
  },
  workspace: { workspaceFolders: { supported: true, changeNotifications: true } },
};
