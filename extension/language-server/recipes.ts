/** The recipes that the client has open, read once a version. */
import { DocumentCache, type Reading } from "../recipe/language/document-cache.ts";
import { withBadBytes } from "../recipe/yaml/encoding.ts";
import type { TextDocument } from "vscode-languageserver-textdocument";
import { DiskFiles, fileOf, uriOf } from "./files.ts";

export interface DocumentList {
  all(): readonly TextDocument[];
}

export class OpenRecipes {
  readonly files: DiskFiles;
  readonly library: DocumentCache;
  readonly #documents: DocumentList;

  /** @param folders of the client's workspace, as names */
  constructor(documents: DocumentList, folders: () => readonly string[]) {
    this.#documents = documents;
    this.files = new DiskFiles({
      folders,
      text: (file) => {
        const open = this.#open(file);
        return open && withBadBytes(open.getText());
      },
    });
    this.library = new DocumentCache(this.files);
  }

  /** The recipe as its text is now, with everything around it. */
  read(document: TextDocument): Promise<Reading> {
    const text = withBadBytes(document.getText());
    return this.library.reading(this.library.document({ file: fileOf(document.uri), version: document.version, text }));
  }

  /** The address of a file as the client writes it. */
  readonly uri = (file: string): string => this.#open(file)?.uri ?? uriOf(file);

  #open(file: string): TextDocument | undefined {
    return this.#documents.all().find(({ uri }) => fileOf(uri) === file);
  }
}

export const isRecipe = (uri: string): boolean => /\.(roll|stock)\.ya?ml$/i.test(uri);
