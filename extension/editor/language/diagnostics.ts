/** Shows the problems of open recipes. */
import * as vscode from "vscode";
import { diagnostics, type Diagnostic } from "../../recipe/language/diagnostics.ts";
import type { Reading } from "../../recipe/language/document-cache.ts";
import { toRange } from "../ranges.ts";
import type { TextServices } from "../services.ts";
import { asShown, setting } from "../settings.ts";
import { explanationOf } from "../explain.ts";
import { isEdited, uriOf } from "../uris.ts";

/** Severities of the recipe room as VS Code's own. */
export const severities = {
  error: vscode.DiagnosticSeverity.Error,
  warning: vscode.DiagnosticSeverity.Warning,
  info: vscode.DiagnosticSeverity.Information,
} as const;

const yamlExtension = "redhat.vscode-yaml";

/** Keeps the Problems view in step with the texts, saved or not. */
export function registerDiagnostics({ recipes }: TextServices): vscode.Disposable {
  const collection = vscode.languages.createDiagnosticCollection("rollbook");
  const publish = async (document: vscode.TextDocument, version: number, reading: Reading) => {
    const places = new Set(reading.problems.flatMap(({ related }) => related?.map(({ file }) => file) ?? []));
    const others = new Map(
      await Promise.all([...places].map(async (file) => [file, await recipes.documents.file(file)] as const)),
    );
    if (document.isClosed || document.version !== version) return;
    const found = diagnostics(asShown(reading, document), reportsStructure(document), (file) => others.get(file));
    collection.set(document.uri, found.map(toDiagnostic));
  };
  return vscode.Disposable.from(
    collection,
    recipes.onDidRead(({ document, version, reading }) => void publish(document, version, reading)),
    recipes.onDidClose(({ uri }) => collection.delete(uri)),
    vscode.workspace.onDidChangeConfiguration((event) => {
      if (event.affectsConfiguration("rollbook") || event.affectsConfiguration("yaml.validate")) recipes.invalidate();
    }),
    vscode.extensions.onDidChange(() => recipes.invalidate()),
  );
}

/** The YAML extension checks our files by our schema too: then it reports what a schema can find, and we the rest. */
export function reportsStructure(document: vscode.TextDocument): boolean {
  const choice = setting("diagnostics.structural", document);
  if (choice !== "auto") return choice === "always";
  const yaml = vscode.extensions.getExtension(yamlExtension);
  const validates = vscode.workspace.getConfiguration("yaml", document).get<boolean>("validate", true);
  return !(yaml && validates && isEdited(document) && document.languageId === "yaml");
}

function toDiagnostic(found: Diagnostic): vscode.Diagnostic {
  const made = new vscode.Diagnostic(toRange(found.range), found.message, severities[found.severity]);
  made.source = "Rollbook";
  made.code = { value: found.code, target: explanationOf(found.code) };
  made.relatedInformation = found.related.map(
    ({ file, range, message }) =>
      new vscode.DiagnosticRelatedInformation(new vscode.Location(uriOf(file), toRange(range)), message),
  );
  if (found.unnecessary) made.tags = [vscode.DiagnosticTag.Unnecessary];
  return made;
}
