/**
 * As much of the editor's interface as the text features need, on files in memory of a file system that is no disk. What
 * is not stated here answers with a value that may be called, made and read without end.
 */
export interface FakeEditor {
  readonly api: unknown;
  /** What was registered for languages first: "Hover", "CompletionItem", … */
  readonly providers: Map<string, Provider>;
  /** All of a kind, in the order in which they were registered. */
  readonly everyProvider: Map<string, Provider[]>;
  readonly commands: Map<string, (...args: never[]) => unknown>;
  readonly diagnostics: Map<string, readonly FakeDiagnostic[]>;
  readonly messages: string[];
  open(path: string): FakeDocument;
}

export type Provider = Record<string, (...args: never[]) => unknown>;

export interface FakeDiagnostic {
  readonly message: string;
  readonly range: FakeRange;
  readonly code: { readonly value: string };
}

export interface FakeDocument {
  readonly uri: FakeUri;
  readonly version: number;
  readonly languageId: string;
  readonly isClosed: boolean;
  getText(range?: FakeRange): string;
  offsetAt(position: FakePosition): number;
  positionAt(offset: number): FakePosition;
}

export class FakePosition {
  readonly line: number;
  readonly character: number;
  constructor(line: number, character: number) {
    this.line = line;
    this.character = character;
  }
}

export class FakeRange {
  readonly start: FakePosition;
  readonly end: FakePosition;
  constructor(...args: [FakePosition, FakePosition] | [number, number, number, number]) {
    const numbers = args.length === 4;
    this.start = numbers ? new FakePosition(args[0], args[1]) : args[0];
    this.end = numbers ? new FakePosition(args[2], args[3]) : args[1];
  }
  with({ start = this.start, end = this.end }: { start?: FakePosition; end?: FakePosition }): FakeRange {
    return new FakeRange(start, end);
  }
}

export class FakeUri {
  readonly scheme: string;
  readonly authority: string;
  readonly path: string;
  readonly fragment: string;
  constructor({ scheme = "", authority = "", path = "", fragment = "" }: Partial<FakeUri>) {
    [this.scheme, this.authority, this.path, this.fragment] = [scheme, authority, path, fragment];
  }
  static from = (parts: Partial<FakeUri>): FakeUri => new FakeUri(parts);
  static file = (path: string): FakeUri => new FakeUri({ scheme: "file", path });
  static joinPath = (uri: FakeUri, ...parts: string[]): FakeUri =>
    uri.with({ path: new URL(parts.join("/"), `file://${uri.path}/`).pathname.replace(/\/$/, "") });
  with(parts: Partial<FakeUri>): FakeUri {
    const { scheme, authority, path, fragment } = this;
    return new FakeUri({ scheme, authority, path, fragment, ...parts });
  }
  toString(): string {
    return `${this.scheme}://${this.authority}${this.path}${this.fragment ? `#${this.fragment}` : ""}`;
  }
}

class Emitter {
  readonly #listeners = new Set<(value: unknown) => void>();
  readonly event = (listener: (value: unknown) => void) => {
    this.#listeners.add(listener);
    return { dispose: () => this.#listeners.delete(listener) };
  };
  fire(value: unknown): void {
    for (const listener of this.#listeners) listener(value);
  }
  dispose(): void {}
}

class Carrier {
  constructor(...args: unknown[]) {
    Object.assign(this, { args });
  }
}

/** A kind of code action: "refactor.move" is within "refactor". */
class FakeKind {
  readonly value: string;
  constructor(value: string) {
    this.value = value;
  }
  append = (part: string): FakeKind => new FakeKind(`${this.value}.${part}`);
  contains = (other: FakeKind): boolean => other.value === this.value || other.value.startsWith(`${this.value}.`);
  intersects = (other: FakeKind): boolean => this.contains(other) || other.contains(this);
}

/** A class whose instances have what they were made of, by these names. */
const shaped = (...names: string[]) =>
  class {
    constructor(...values: unknown[]) {
      for (const [i, name] of names.entries()) Object.assign(this, { [name]: values[i] });
    }
  };

/** Each name as its own value. */
const named = (...names: string[]): Record<string, string> => Object.fromEntries(names.map((name) => [name, name]));

/** Edits by the path of their file. */
export class FakeWorkspaceEdit {
  readonly files = new Map<string, { range: FakeRange; text: string }[]>();
  replace(uri: FakeUri, range: FakeRange, text: string): void {
    this.files.set(uri.path, [...(this.files.get(uri.path) ?? []), { range, text }]);
  }
}

function endless(): unknown {
  const target = function () {};
  return new Proxy(target, {
    get: (_, name) => (name === Symbol.toPrimitive ? () => 0 : name === "then" ? undefined : endless()),
    apply: () => endless(),
    construct: () => endless() as object,
    set: () => true,
  });
}

/** Known names as they are, any other endless. By its prototype, which bundlers keep where they copy a module. */
const open = (known: Record<string, unknown>): unknown =>
  Object.setPrototypeOf(
    known,
    new Proxy({}, { get: (_, name) => (typeof name === "symbol" || name === "then" ? undefined : endless()) }),
  );

/** @param files by their paths; @param settings by their names under rollbook; @param top the workspace's folder */
export function fakeEditor(files: Map<string, string>, settings: Record<string, unknown>, top = "/work"): FakeEditor {
  const root = new FakeUri({ scheme: "vscode-vfs", authority: "host", path: top });
  const documents: FakeDocument[] = [];
  const providers: FakeEditor["providers"] = new Map();
  const everyProvider: FakeEditor["everyProvider"] = new Map();
  const commands: FakeEditor["commands"] = new Map();
  const diagnostics: FakeEditor["diagnostics"] = new Map();
  const messages: string[] = [];
  const opened = new Emitter();
  const nothing = () => ({ dispose: () => {} });
  const missing = (): never => {
    throw new Error("There is no such file.");
  };
  const names = (folder: string) => [
    ...new Map(
      [...files.keys()]
        .filter((path) => path.startsWith(`${folder}/`))
        .map((path) => path.slice(folder.length + 1).split("/"))
        .map(([name, ...rest]) => [name, rest.length > 0 ? 2 : 1] as const),
    ),
  ];
  const api = open({
    Position: FakePosition,
    Range: FakeRange,
    Uri: FakeUri,
    EventEmitter: Emitter,
    Disposable: Object.assign(
      class {
        dispose(): void {}
      },
      { from: nothing },
    ),
    Hover: Carrier,
    MarkdownString: Carrier,
    TextEdit: { replace: (range: FakeRange, text: string) => ({ range, text }) },
    SnippetString: Carrier,
    WorkspaceEdit: FakeWorkspaceEdit,
    CompletionItem: shaped("label", "kind"),
    Diagnostic: shaped("range", "message", "severity"),
    Location: shaped("uri", "range"),
    DiagnosticRelatedInformation: shaped("location", "message"),
    DocumentSymbol: shaped("name", "detail", "kind", "range", "selectionRange"),
    FoldingRange: shaped("start", "end", "kind"),
    InlayHintLabelPart: shaped("value"),
    InlayHint: shaped("position", "label"),
    CodeLens: shaped("range", "command"),
    DocumentLink: shaped("range", "target"),
    CodeAction: shaped("title", "kind"),
    CodeActionKind: {
      QuickFix: new FakeKind("quickfix"),
      RefactorMove: new FakeKind("refactor.move"),
      SourceFixAll: new FakeKind("source.fixAll"),
    },
    FoldingRangeKind: named("Comment"),
    DiagnosticSeverity: named("Error", "Warning", "Information"),
    SymbolKind: named("Module", "Class", "Property"),
    CompletionItemKind: named("Module", "Property", "Value", "Class", "File", "Folder"),
    FileType: { Directory: 2, File: 1, SymbolicLink: 64 },
    l10n: { t: (message: string, ...args: unknown[]) => message.replaceAll(/\{(\d)\}/g, (_, i) => String(args[i])) },
    languages: new Proxy(
      {},
      {
        get: (_, name: string) =>
          name === "createDiagnosticCollection"
            ? () => ({
                set: (uri: FakeUri, found: []) => diagnostics.set(uri.path, found),
                delete: () => {},
                dispose: () => {},
              })
            : (_selector: unknown, provider: never) => {
                const kind = /^register(\w+)Provider$/.exec(name)?.[1] ?? name;
                if (!providers.has(kind)) providers.set(kind, provider);
                everyProvider.set(kind, [...(everyProvider.get(kind) ?? []), provider]);
                return nothing();
              },
      },
    ),
    commands: open({
      registerCommand: (name: string, run: never) => {
        commands.set(name, run);
        return nothing();
      },
      getCommands: () => Promise.resolve([...commands.keys()]),
    }),
    extensions: open({ getExtension: () => undefined, onDidChange: nothing }),
    window: open({
      showInformationMessage: (text: string) => void messages.push(text),
      showWarningMessage: (text: string) => void messages.push(text),
      activeTextEditor: undefined,
    }),
    workspace: open({
      textDocuments: documents,
      workspaceFolders: [{ uri: root, name: "work", index: 0 }],
      isTrusted: true,
      getWorkspaceFolder: () => ({ uri: root }),
      getConfiguration: () => ({ get: (name: string, value: unknown) => settings[name] ?? value }),
      findFiles: (pattern: string) => {
        const kind = /\.(roll|stock)\./.exec(pattern)?.[1] ?? "";
        const found = [...files.keys()].filter((path) => new RegExp(`\\.${kind}\\.ya?ml$`).test(path));
        return Promise.resolve(found.map((path) => root.with({ path })));
      },
      onDidOpenTextDocument: opened.event,
      fs: {
        readFile: async ({ path }: FakeUri) => new TextEncoder().encode(files.get(path) ?? missing()),
        stat: async ({ path }: FakeUri) => {
          const size = new TextEncoder().encode(files.get(path) ?? missing()).length;
          return { type: 1, size, mtime: 1 };
        },
        readDirectory: async ({ path }: FakeUri) => (names(path).length > 0 ? names(path) : missing()),
      },
    }),
  });
  return {
    api,
    providers,
    everyProvider,
    commands,
    diagnostics,
    messages,
    open(path) {
      const text = files.get(path) ?? missing();
      const offsetAt = ({ line, character }: FakePosition): number =>
        text.split("\n").slice(0, line).join("\n").length + (line > 0 ? 1 : 0) + character;
      const document: FakeDocument = {
        uri: root.with({ path }),
        version: 1,
        languageId: "yaml",
        isClosed: false,
        getText: (range) => (range ? text.slice(offsetAt(range.start), offsetAt(range.end)) : text),
        offsetAt,
        positionAt: (offset) => {
          const lines = text.slice(0, offset).split("\n");
          return new FakePosition(lines.length - 1, lines.at(-1)!.length);
        },
      };
      documents.push(document);
      opened.fire(document);
      return document;
    },
  };
}
