/** Reads open recipes as they change, and tells the parts of the extension. */
import * as vscode from "vscode";
import { DocumentCache, type Reading } from "../recipe/language/document-cache.ts";
import { EditorFiles, type PointerReader, recipeText } from "./files.ts";
import { fileOf, isEdited, isRecipe } from "./uris.ts";

/** A recipe that has just been reread. */
export interface Read {
  readonly document: vscode.TextDocument;
  readonly version: number;
  readonly reading: Reading;
}

interface Pending {
  timer: NodeJS.Timeout;
  readonly done: Promise<void>;
  readonly settle: () => void;
}

/** Milliseconds between the last key and reading the text; long recipes wait longer, so that typing stays quick. */
const shortestPause = 120;
const longestPause = 1500;

/**
 * The recipes that are open, and others on request. A text is parsed once a version, after a pause in typing, and every
 * feature waits for that one parse. The pause grows with the time that the last parse took: however long the recipe,
 * at most a fifth of the time is spent on parsing, and none while keys are coming in.
 */
export class Recipes implements vscode.Disposable {
  readonly files: EditorFiles;
  readonly documents: DocumentCache;
  readonly #pending = new Map<string, Pending>();
  readonly #cost = new Map<string, number>();
  readonly #read = new vscode.EventEmitter<Read>();
  readonly #closed = new vscode.EventEmitter<vscode.TextDocument>();
  readonly #world = new vscode.EventEmitter<void>();
  readonly #subscriptions: vscode.Disposable[];
  #worldTimer: NodeJS.Timeout | undefined;

  /** A recipe's text or something around it changed, and it has been reread. */
  readonly onDidRead = this.#read.event;
  readonly onDidClose = this.#closed.event;
  /** Recipes or scans came, went, or changed on disk. */
  readonly onDidInvalidate = this.#world.event;

  /** @param onDisk tells pointers among files of this computer; absent in a browser */
  constructor(onDisk?: PointerReader) {
    this.files = new EditorFiles(onDisk);
    this.documents = new DocumentCache(this.files);
    // Scans come and go in any folder, and pointers become scans; of other files only printers' profiles are looked into.
    const names = vscode.workspace.createFileSystemWatcher("**/*");
    const recipes = vscode.workspace.createFileSystemWatcher("**/*.{roll,stock}.{yaml,yml}");
    const invalidateReadings = (uri: vscode.Uri) =>
      /\/(node_modules|\.git)\//.test(uri.path) ? undefined : this.invalidate();
    this.#subscriptions = [
      names,
      recipes,
      names.onDidCreate(invalidateReadings),
      names.onDidDelete(invalidateReadings),
      names.onDidChange((uri) => (this.#isSource(uri) ? invalidateReadings(uri) : undefined)),
      recipes.onDidChange(invalidateReadings),
      vscode.workspace.onDidOpenTextDocument((document) => this.#changed(document, 0)),
      vscode.workspace.onDidChangeTextDocument(({ document, contentChanges }) => {
        if (contentChanges.length > 0) this.#changed(document);
      }),
      vscode.workspace.onDidCloseTextDocument((document) => this.#forget(document)),
      vscode.workspace.onDidChangeWorkspaceFolders(() => this.invalidate()),
      vscode.workspace.onDidGrantWorkspaceTrust(() => this.invalidate()),
      this.#read,
      this.#closed,
      this.#world,
    ];
    for (const document of vscode.workspace.textDocuments) this.#changed(document, 0);
  }

  /** The recipe as its text is now. Waits for the pause in typing when the text is newer than what was read. */
  async read(document: vscode.TextDocument): Promise<Reading> {
    const file = fileOf(document.uri);
    if (!this.documents.isParsed(file, document.version) && isEdited(document)) {
      this.#changed(document, undefined, false);
      await this.#pending.get(file)?.done;
    }
    return this.#readNow(document);
  }

  /** The recipe as it was read last, for answers that cannot wait; its text may be some keys behind. */
  async recent(document: vscode.TextDocument): Promise<Reading> {
    const last = this.documents.latest(fileOf(document.uri));
    return last ? this.documents.reading(last) : this.#readNow(document);
  }

  /** A recipe that may be open or not; undefined when there is no such file. */
  async file(uri: vscode.Uri): Promise<Reading | undefined> {
    const document = await this.documents.file(fileOf(uri));
    return document && this.documents.reading(document);
  }

  /** Whether pictures are made from a file's content. */
  #isSource(uri: vscode.Uri): boolean {
    return this.documents.isScan(fileOf(uri)) || /\.ic[cm]$/i.test(uri.path);
  }

  /** Reads every open recipe again, soon. */
  invalidate(): void {
    clearTimeout(this.#worldTimer);
    this.#worldTimer = setTimeout(() => {
      this.documents.invalidate();
      for (const document of vscode.workspace.textDocuments) this.#changed(document, 0);
      this.#world.fire();
    }, 200);
  }

  dispose(): void {
    clearTimeout(this.#worldTimer);
    for (const { timer, settle } of this.#pending.values()) {
      clearTimeout(timer);
      settle();
    }
    this.#pending.clear();
    for (const one of this.#subscriptions) one.dispose();
  }

  #changed(document: vscode.TextDocument, pause?: number, restart = true): void {
    if (!isEdited(document)) return;
    const file = fileOf(document.uri);
    const run = () => void this.#run(document, file);
    const wait = pause ?? Math.min(longestPause, shortestPause + 4 * (this.#cost.get(file) ?? 0));
    const known = this.#pending.get(file);
    if (known) {
      if (!restart) return;
      clearTimeout(known.timer);
      known.timer = setTimeout(run, wait);
      return;
    }
    let settle = () => {};
    const done = new Promise<void>((resolve) => (settle = resolve));
    this.#pending.set(file, { timer: setTimeout(run, wait), done, settle });
  }

  async #run(document: vscode.TextDocument, file: string): Promise<void> {
    const pending = this.#pending.get(file);
    this.#pending.delete(file);
    if (document.isClosed) return pending?.settle();
    const { version } = document;
    const isNew = !this.documents.isParsed(file, version);
    const reading = this.#readNow(document);
    pending?.settle();
    this.#read.fire({ document, version, reading: await reading });
    // What rolls inherit has changed with their stock.
    if (isNew && version > 1 && /\.stock\.ya?ml$/i.test(file)) this.invalidate();
  }

  #readNow(document: vscode.TextDocument): Promise<Reading> {
    const file = fileOf(document.uri);
    const start = performance.now();
    const isNew = !this.documents.isParsed(file, document.version);
    const parsed = this.documents.document({ file, version: document.version, text: recipeText(document) });
    if (isNew) this.#cost.set(file, performance.now() - start);
    return this.documents.reading(parsed);
  }

  #forget(document: vscode.TextDocument): void {
    if (!isRecipe(document.uri)) return;
    const file = fileOf(document.uri);
    const pending = this.#pending.get(file);
    clearTimeout(pending?.timer);
    pending?.settle();
    this.#pending.delete(file);
    this.#cost.delete(file);
    this.documents.forget(file);
    this.#closed.fire(document);
  }
}
