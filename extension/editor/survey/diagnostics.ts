/** Shows a survey's findings in the Problems view. */
import { recipeText } from "../files.ts";
import * as vscode from "vscode";
import { findingMessage } from "../../recipe/language/findings.ts";
import type { Reading } from "../../recipe/language/document-cache.ts";
import { explanationOfFinding } from "../explain.ts";
import { severities } from "../language/diagnostics.ts";
import { toRange } from "../ranges.ts";
import type { EditorServices } from "../services.ts";
import { fileOf, uriOf } from "../uris.ts";

/**
 * Shows what surveys found beside the problems of the texts, in a collection of its own: both come and go by themselves.
 * Places are worked out from each reading of a text; while a text is no YAML they stay as they were.
 */
export function registerFindings({ recipes, surveys, t }: EditorServices): vscode.Disposable {
  const collection = vscode.languages.createDiagnosticCollection("rollbook-survey");

  function publish(reading: Reading): void {
    if (!reading.document.wellFormed) return;
    const found = surveys.findings(reading).map(({ finding, range }) => {
      const made = new vscode.Diagnostic(toRange(range), findingMessage(finding, t), severities[finding.severity]);
      made.source = SOURCE;
      made.code = { value: finding.code, target: explanationOfFinding(finding.code) };
      return made;
    });
    const failures = surveys.failures(reading).map(({ message, range }) => {
      const made = new vscode.Diagnostic(toRange(range), message, vscode.DiagnosticSeverity.Warning);
      made.source = SOURCE;
      return made;
    });
    collection.set(uriOf(reading.document.file), [...found, ...failures]);
  }

  async function refresh(roll: string): Promise<void> {
    const uri = uriOf(roll);
    const open = vscode.workspace.textDocuments.find((one) => !one.isClosed && fileOf(one.uri) === roll);
    const reading = open ? await recipes.read(open) : await recipes.file(uri);
    if (!reading) collection.delete(uri);
    // A text that has changed meanwhile is read again by itself.
    else if (!open || reading.document.text === recipeText(open)) publish(reading);
  }

  const isOpen = (roll: string): boolean => vscode.workspace.textDocuments.some((one) => fileOf(one.uri) === roll);
  return vscode.Disposable.from(
    collection,
    surveys.onDidChange((roll) => void refresh(roll)),
    recipes.onDidRead(({ document, version, reading }) => {
      const { file } = reading.document;
      if (document.version !== version) return;
      if (surveys.of(file)) publish(reading);
      else if (vscode.workspace.isTrusted && reading.document.kind === "roll") void surveys.recall(file);
    }),
    recipes.onDidClose(({ uri }) => surveys.of(fileOf(uri)) && void refresh(fileOf(uri))),
    recipes.onDidInvalidate(() => {
      void surveys.look();
      for (const roll of surveys.rolls) if (!isOpen(roll)) void refresh(roll);
    }),
  );
}

/** What stands before a finding in the Problems view. */
const SOURCE = "Rollbook survey";
