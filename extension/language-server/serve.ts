/** The language server: what the recipe room offers an editor, over the Language Server Protocol. */
import {
  type ClientCapabilities,
  CodeActionKind,
  createConnection,
  DidChangeWatchedFilesNotification,
  type InitializeResult,
  TextDocuments,
  TextDocumentSyncKind,
} from "vscode-languageserver/node";
import { TextDocument } from "vscode-languageserver-textdocument";
import { VERSION } from "../work/files/version.ts";
import { answerAtCursor, answerForWhole, answerRenaming, forRecipes } from "./answers.ts";
import { answerCodeActions, FIX_ALL } from "./code-actions.ts";
import { fileOf } from "./files.ts";
import { publishProblems } from "./problems.ts";
import { OpenRecipes } from "./recipes.ts";

/** What a client may ask for when it starts the server. */
interface Options {
  /** false leaves out warnings of scans that were not found. */
  readonly missingScans?: boolean;
}

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

  const forRecipe = forRecipes((uri) => documents.get(uri));
  const hasSnippets = (): boolean => client.textDocument?.completion?.completionItem?.snippetSupport === true;
  answerAtCursor(connection, recipes, forRecipe, hasSnippets);
  answerForWhole(connection, recipes, forRecipe);
  answerRenaming(connection, recipes, forRecipe);
  answerCodeActions(connection, documents, recipes);
  documents.listen(connection);
  connection.listen();
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
