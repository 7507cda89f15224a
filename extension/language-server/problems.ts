/** Keeps the client's list of problems in step with the texts, saved or not. */
import type { Connection, TextDocuments } from "vscode-languageserver/node";
import type { TextDocument } from "vscode-languageserver-textdocument";
import { diagnostics } from "../recipe/language/diagnostics.ts";
import { isAwayFromScans } from "../recipe/problems.ts";
import { toDiagnostic } from "./convert.ts";
import { fileOf } from "./files.ts";
import { isRecipe, type OpenRecipes } from "./recipes.ts";

/** Milliseconds after the last key, and after the last change of a file. */
const PAUSE = 120;
const WORLD_PAUSE = 200;

export interface PublishedProblems {
  /** To be called when files came, went or changed: every open recipe is read again, soon. */
  invalidate(): void;
}

export function publishProblems(
  connection: Connection,
  documents: TextDocuments<TextDocument>,
  recipes: OpenRecipes,
  withMissingScans: () => boolean,
): PublishedProblems {
  const timers = new Map<string, NodeJS.Timeout>();
  let world: NodeJS.Timeout | undefined;

  async function publish(document: TextDocument): Promise<void> {
    const { version } = document;
    const reading = await recipes.read(document);
    const related = new Set(reading.problems.flatMap((one) => one.related?.map(({ file }) => file) ?? []));
    const others = new Map(
      await Promise.all([...related].map(async (file) => [file, await recipes.library.file(file)] as const)),
    );
    if (documents.get(document.uri)?.version !== version) return;
    const shown = withMissingScans()
      ? reading
      : { ...reading, problems: reading.problems.filter((one) => !isAwayFromScans(one)) };
    const found = diagnostics(shown, true, (file) => others.get(file));
    await connection.sendDiagnostics({
      uri: document.uri,
      version,
      diagnostics: found.map((one) => toDiagnostic(one, recipes.uri)),
    });
  }

  function soon(document: TextDocument, pause: number): void {
    clearTimeout(timers.get(document.uri));
    timers.set(
      document.uri,
      setTimeout(() => {
        timers.delete(document.uri);
        publish(document).catch((error: unknown) => connection.console.error(String(error)));
      }, pause),
    );
  }

  function invalidate(): void {
    clearTimeout(world);
    world = setTimeout(() => {
      recipes.library.invalidate();
      for (const document of documents.all()) if (isRecipe(document.uri)) soon(document, 0);
    }, WORLD_PAUSE);
  }

  documents.onDidChangeContent(({ document }) => {
    if (!isRecipe(document.uri)) return;
    soon(document, document.version > 1 ? PAUSE : 0);
    // What rolls inherit has changed with their stock.
    if (/\.stock\.ya?ml$/i.test(document.uri)) invalidate();
  });
  documents.onDidClose(({ document }) => {
    clearTimeout(timers.get(document.uri));
    timers.delete(document.uri);
    recipes.library.forget(fileOf(document.uri));
    void connection.sendDiagnostics({ uri: document.uri, diagnostics: [] });
  });
  return { invalidate };
}
