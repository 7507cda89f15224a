/** The roll's recipe at the copy stand: read as text with every change, and grown by what each scan brings. */
import { basename, dirname, join, relative, sep } from "node:path";
import { composeRecipe } from "../../../recipe/edit/compose.ts";
import type { ValueEdit } from "../../../recipe/edit/edit.ts";
import type { FilmFormat } from "../../../recipe/generated/types.ts";
import { parseRecipe } from "../../../recipe/problems/document.ts";
import { CURRENT_VERSION } from "../../../recipe/version.ts";
import { resolveRoll } from "../../../recipe/resolve/resolve.ts";
import { loadDocument } from "../../../recipe/resolve/workspace.ts";
import type { Workspace } from "../../files/workspace.ts";
import type { Judged, Session } from "../session.ts";
import type { SessionStore } from "../session-store.ts";
import { digestEdits } from "./digest-edits.ts";
import { renameEdits } from "./rename-edits.ts";
import { rollEdits } from "./roll-edits.ts";
import { type RollView, rollView, type ViewOptions } from "./roll-view.ts";
import { valueAt, withoutOwn, type Written, writtenIn } from "./written.ts";

/** The recipe's text, wherever it is kept. */
export interface RecipeText {
  /** Absolute path of the recipe. */
  readonly file: string;
  read(): Promise<string | undefined>;
  /** Writes a recipe that is not there yet. */
  create(text: string): Promise<void>;
  /** Changes the recipe by the one edit function, if it still says `seen`. @returns false where it does not */
  change(seen: string, edits: readonly ValueEdit[], label: string): Promise<boolean>;
}

export interface RecipeOptions extends ViewOptions {
  /** Absolute folder that scans arrive in. */
  readonly folder: string;
  /** The roll's recipe; without one scans are judged and nothing is written. */
  readonly recipe?: RecipeText;
  /** Absolute path of the stock's recipe, for a roll that is created. */
  readonly stock?: string;
  readonly format?: FilmFormat;
  readonly title?: string;
}

/** Attempts to change a recipe that somebody else changes at the same time. */
const ATTEMPTS = 5;

export class GrowingRecipe {
  readonly #options: RecipeOptions;
  readonly #workspace: Workspace;
  readonly #store: Pick<SessionStore, "readWritten" | "writeWritten">;
  /** The recipe's path within the workspace; a name of no file where there is none. */
  readonly #file: string;
  #written: Written = {};

  constructor(options: RecipeOptions, workspace: Workspace, store: Pick<SessionStore, "readWritten" | "writeWritten">) {
    this.#options = options;
    this.#workspace = workspace;
    this.#store = store;
    this.#file = workspace.inside(fileFor(options));
  }

  /** Recalls what an earlier session wrote into the recipe. */
  async recall(): Promise<void> {
    const text = await this.#options.recipe?.read();
    this.#written = text === undefined ? {} : writtenIn(this.#parse(text).value, await this.#store.readWritten());
  }

  /** The roll as the recipe says it, or as it will be: an empty roll of the stock. */
  async view(): Promise<RollView> {
    const text = await this.#options.recipe?.read();
    const document = this.#parse(text ?? newRollText(this.#options));
    const { resolved, stock } = await loadDocument(document, this.#workspace);
    const roll = resolved ?? resolveRoll(this.#parse(`version: ${CURRENT_VERSION}\n`));
    // JSON is YAML: the values alone are read again, without what this session wrote.
    const rest = JSON.stringify(withoutOwn(document.value ?? { version: CURRENT_VERSION }, this.#written));
    return rollView(roll, this.#options, resolveRoll(this.#parse(rest), stock));
  }

  /**
   * Writes what a judged scan brings, and creates the recipe where there is none.
   * @returns false where somebody else changed the recipe at every attempt
   */
  async grow(session: Session, judged: Judged): Promise<boolean> {
    const { recipe } = this.#options;
    if (!recipe) return true;
    for (let attempt = 0; attempt < ATTEMPTS; attempt++) {
      const seen = (await recipe.read()) ?? (await this.#create(recipe));
      const document = this.#parse(seen);
      const stated = (path: ValueEdit["path"]): unknown => valueAt(document.value, path);
      const made = rollEdits(session, await this.view(), judged, stated, this.#written);
      if (made.edits.length === 0) return true;
      const digests = digestEdits(document.value, made.edits);
      await this.#store.writeWritten({ written: this.#written, next: made.written });
      if (!(await recipe.change(seen, [...made.edits, ...digests], made.label))) continue;
      this.#written = made.written;
      await this.#store.writeWritten({ written: made.written });
      return true;
    }
    return false;
  }

  /** Follows a scan that was renamed. */
  async rename(from: string, name: string): Promise<void> {
    const { recipe } = this.#options;
    const edits = renameEdits(await this.view(), from, name);
    const seen = await recipe?.read();
    if (!recipe || seen === undefined || edits.length === 0) return;
    const digests = digestEdits(this.#parse(seen).value, edits);
    await recipe.change(seen, [...edits, ...digests], `Rename ${from} to ${name}`);
  }

  async #create(to: RecipeText): Promise<string> {
    const text = newRollText(this.#options);
    await to.create(text);
    return (await to.read()) ?? text;
  }

  #parse(text: string): ReturnType<typeof parseRecipe> {
    return parseRecipe(text, { file: this.#file, kind: "roll" });
  }
}

const fileFor = ({ folder, recipe }: RecipeOptions): string => recipe?.file ?? join(folder, "none.roll.yaml");

/** The recipe of an empty roll, as it is created with the first scan that makes a frame. */
function newRollText(options: RecipeOptions): string {
  const { folder, stock, format, title } = options;
  const file = fileFor(options);
  const posix = (to: string): string => relative(dirname(file), to).split(sep).join("/") || ".";
  const values: ValueEdit[] = [
    { path: ["title"], value: title ?? basename(file).replace(/\.roll\.ya?ml$/i, "") },
    { path: ["stock"], value: stock && posix(stock) },
    { path: ["format"], value: format },
    { path: ["scans"], value: posix(folder) },
  ];
  return composeRecipe({
    kind: "roll",
    head: "Written at the copy stand, scan by scan. Every value may be changed; what you change stays.",
    values,
    comments: [],
  });
}
