/** Parsed documents, kept until their text or what they rest on changes. */
import { parseRecipe, type RecipeDocument } from "../problems/document.ts";
import { kindOfFile } from "../path.ts";
import { resolveInside } from "../paths.ts";
import type { Pointer } from "../resolve/pointer.ts";
import { resolveRoll, type ResolvedRoll } from "../resolve/resolve.ts";
import { loadDocument, type LoadedRoll } from "../resolve/workspace.ts";
import { withSuggestions } from "./missing.ts";
import type { RecipeWorkspace } from "./workspace.ts";

/** A recipe's text as an editor holds it. */
export interface Source {
  readonly file: string;
  /** Rises with each change. */
  readonly version: number;
  readonly text: string;
}

/** A recipe with the stock that it names and every value that follows. A stock is resolved like a roll without frames. */
export interface Reading extends LoadedRoll {
  readonly document: RecipeDocument;
  readonly resolved: ResolvedRoll;
}

interface CacheEntry {
  readonly version: number;
  readonly document: RecipeDocument;
  /** Made while the rest of the world stood at this count. */
  reading?: { readonly generation: number; readonly made: Promise<Reading> };
}

/** Files that are not open in an editor and are kept parsed. */
const maxClosed = 64;

/** Parsed recipes: each text is parsed once, and forgotten when its editor closes. */
export class DocumentCache {
  readonly #workspace: RecipeWorkspace;
  readonly #open = new Map<string, CacheEntry>();
  readonly #closed = new Map<string, CacheEntry>();
  /** What lies in scans' places. Asked once, until the world changes: a text is read again with every pause in typing. */
  readonly #pointers = new Map<string, Promise<Pointer | undefined>>();
  #generation = 0;

  constructor(workspace: RecipeWorkspace) {
    this.#workspace = workspace;
  }

  /** The recipe as its text is now. */
  document({ file, version, text }: Source): RecipeDocument {
    const entry = this.#open.get(file);
    if (entry?.version === version && entry.document.text === text) return entry.document;
    const document = this.#parse(file, text);
    this.#open.set(file, { version, document });
    this.#closed.delete(file);
    return document;
  }

  /** Whether the text of this version has been parsed already. */
  isParsed(file: string, version: number): boolean {
    return this.#open.get(file)?.version === version;
  }

  /** What was parsed last of a file that is open; older than its text while somebody types. */
  latest(file: string): RecipeDocument | undefined {
    return this.#open.get(file)?.document;
  }

  /** A recipe that need not be open in an editor; of one that is, the text as the workspace gives it. */
  async file(file: string): Promise<RecipeDocument | undefined> {
    const text = await this.#workspace.read(file);
    if (text === undefined) return undefined;
    const known = this.#open.get(file) ?? this.#closed.get(file);
    if (known?.document.text === text) return known.document;
    const document = this.#parse(file, text);
    this.#closed.delete(file);
    this.#closed.set(file, { version: 0, document });
    for (const oldest of this.#closed.keys()) if (this.#closed.size > maxClosed) this.#closed.delete(oldest);
    return document;
  }

  /** The recipe with everything around it. Made once, until its text or the world changes. */
  reading(document: RecipeDocument): Promise<Reading> {
    const entry = [this.#open, this.#closed]
      .map((entries) => entries.get(document.file))
      .find((one) => one?.document === document);
    if (entry?.reading?.generation === this.#generation) return entry.reading.made;
    const made = this.#read(document);
    if (entry) entry.reading = { generation: this.#generation, made };
    return made;
  }

  /** To be called when another file than a recipe's own text has changed, come or gone: readings are rebuilt. */
  invalidate(): void {
    this.#generation++;
    this.#pointers.clear();
  }

  /** Whether a recipe that was read names this scan, and the scan or its pointer is there. */
  isScan(file: string): boolean {
    return this.#pointers.has(file);
  }

  /** Where a path that stands in a recipe leads; undefined where it may not go. */
  pathFrom(document: RecipeDocument, path: string): string | undefined {
    return resolveInside(this.#workspace.roots(document.file), document.file, path).path;
  }

  /** Drops a file whose editor was closed. */
  forget(file: string): void {
    this.#open.delete(file);
    this.#closed.delete(file);
  }

  /** How many texts are kept parsed. */
  get size(): number {
    return this.#open.size + this.#closed.size;
  }

  #parse(file: string, text: string): RecipeDocument {
    return parseRecipe(text, { file, kind: kindOfFile(file), roots: this.#workspace.roots(file) });
  }

  #pointer(path: string): Promise<Pointer | undefined> {
    const known = this.#pointers.get(path);
    if (known) return known;
    const asked = this.#workspace.pointer?.(path) ?? Promise.resolve(undefined);
    this.#pointers.set(path, asked);
    return asked;
  }

  async #read(document: RecipeDocument): Promise<Reading> {
    const roots = this.#workspace.roots(document.file);
    const loaded = await loadDocument(document, {
      roots,
      read: (path) => this.#workspace.read(path),
      exists: (path) => this.#workspace.exists(path),
      list: (folder) => this.#workspace.list(folder),
      pointer: (path) => this.#pointer(path),
    });
    const named = loaded.problems.map((one) => ({ ...one, message: withoutRoots(one.message, roots) }));
    return {
      ...loaded,
      document,
      resolved: loaded.resolved ?? resolveRoll(document, loaded.stock),
      problems: await withSuggestions(document, named, this.#workspace),
    };
  }
}

/** Paths within the workspace are named from its root on. */
function withoutRoots(message: string, roots: readonly string[]): string {
  return roots.reduce((text, root) => (root === "" || root === "/" ? text : text.replaceAll(`${root}/`, "")), message);
}
