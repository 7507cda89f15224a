import { applyChanges } from "../../../../extension/recipe/edit/edit.ts";
import { DocumentCache, type Reading } from "../../../../extension/recipe/language/document-cache.ts";
import type { FileEdits, Place } from "../../../../extension/recipe/language/types.ts";
import { type Pointer, pointerIn } from "../../../../extension/recipe/resolve/pointer.ts";
import type { RecipeWorkspace } from "../../../../extension/recipe/language/workspace.ts";
import { Lines } from "../../../../extension/recipe/yaml/lines.ts";

/** A workspace in memory, rooted at /w. Files that are no recipes have any text. */
export class MemoryWorkspace implements RecipeWorkspace {
  readonly files: Map<string, string>;
  /** How often a file was read. */
  reads = 0;

  constructor(files: Readonly<Record<string, string>>) {
    this.files = new Map(Object.entries(files).map(([name, text]) => [`/w/${name}`, text]));
  }

  roots(): readonly string[] {
    return ["/w"];
  }

  read(file: string): Promise<string | undefined> {
    this.reads++;
    return Promise.resolve(this.files.get(file));
  }

  exists(file: string): Promise<boolean> {
    return Promise.resolve(this.files.has(file));
  }

  list(folder: string): Promise<readonly string[] | undefined> {
    const names = new Set<string>();
    for (const file of this.files.keys()) {
      if (!file.startsWith(`${folder}/`)) continue;
      const [name, ...rest] = file.slice(folder.length + 1).split("/");
      names.add(rest.length > 0 ? `${name}/` : name!);
    }
    return Promise.resolve(names.size > 0 ? [...names] : undefined);
  }

  pointer(file: string): Promise<Pointer | undefined> {
    const bytes = new TextEncoder().encode(this.files.get(file));
    return Promise.resolve(pointerIn(bytes, bytes.length));
  }

  find(kind: "roll" | "stock"): Promise<readonly string[]> {
    return Promise.resolve([...this.files.keys()].filter((file) => file.endsWith(`.${kind}.yaml`)));
  }

  link(file: string, at?: Place): string {
    return at ? `${file}#L${at.line + 1}` : file;
  }
}

/** Takes the marker | out of a text (write ¦ for a | that stays). */
export function marked(text: string): { text: string; offset: number } {
  const offset = text.indexOf("|");
  if (offset < 0) throw new Error("The text has no | to mark the caret.");
  return { text: (text.slice(0, offset) + text.slice(offset + 1)).replaceAll("¦", "|"), offset };
}

/** An opened recipe with everything around it. */
export interface Opened {
  readonly workspace: MemoryWorkspace;
  readonly documents: DocumentCache;
  readonly reading: Reading;
  readonly offset: number;
}

/** Opens `roll`, in which | may mark the caret, beside other files. */
export async function open(
  roll: string,
  others: Readonly<Record<string, string>> = {},
  name = "harbour.roll.yaml",
): Promise<Opened> {
  const { text, offset } = roll.includes("|") ? marked(roll) : { text: roll, offset: 0 };
  const workspace = new MemoryWorkspace({ [name]: text, ...others });
  const documents = new DocumentCache(workspace);
  const document = documents.document({ file: `/w/${name}`, version: 1, text });
  return { workspace, documents, reading: await documents.reading(document), offset };
}

/** A text after edits in lines and characters, as an editor makes them. */
export function edited(text: string, edits: FileEdits["edits"]): string {
  const lines = new Lines(text);
  const offset = ({ line, character }: Place) => lines.startOf(line + 1) + character;
  const changes = edits.map(({ range, text: by }) => ({
    start: offset(range.start),
    end: offset(range.end),
    text: by,
  }));
  return applyChanges(
    text,
    changes.toSorted((a, b) => a.start - b.start),
  );
}

/** The text that a range covers. */
export function covered(text: string, { start, end }: { start: Place; end: Place }): string {
  const lines = new Lines(text);
  return text.slice(lines.startOf(start.line + 1) + start.character, lines.startOf(end.line + 1) + end.character);
}
