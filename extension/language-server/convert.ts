/** Results of the recipe room in the forms of the Language Server Protocol 3.17. Ranges are the same in both. */
import {
  type CodeAction,
  CodeActionKind,
  type CompletionItem,
  CompletionItemKind,
  type Diagnostic as LspDiagnostic,
  DiagnosticSeverity,
  DiagnosticTag,
  type DocumentSymbol,
  InsertTextFormat,
  MarkupKind,
  SymbolKind,
  type WorkspaceEdit,
} from "vscode-languageserver/node";
import type { Completion } from "../recipe/language/completion/completion.ts";
import type { Diagnostic } from "../recipe/language/diagnostics.ts";
import type { Fix } from "../recipe/language/fixes.ts";
import type { Symbol } from "../recipe/language/symbols.ts";
import type { FileEdits } from "../recipe/language/types.ts";

/** The client's own address of a file. */
export type UriOf = (file: string) => string;

const severities = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  info: DiagnosticSeverity.Information,
} as const;

export function toDiagnostic(found: Diagnostic, uri: UriOf): LspDiagnostic {
  return {
    range: found.range,
    message: found.message,
    severity: severities[found.severity],
    source: "Rollbook",
    code: found.code,
    relatedInformation: found.related.map(({ file, range, message }) => ({
      location: { uri: uri(file), range },
      message,
    })),
    tags: found.unnecessary ? [DiagnosticTag.Unnecessary] : [],
  };
}

const kinds = {
  section: CompletionItemKind.Module,
  key: CompletionItemKind.Property,
  value: CompletionItemKind.Value,
  frame: CompletionItemKind.Class,
  file: CompletionItemKind.File,
  folder: CompletionItemKind.Folder,
} as const;

/** @param snippets whether the client takes snippets; others get their text alone */
export function toCompletion(found: Completion, snippets: boolean): CompletionItem {
  const { label, kind, detail, documentation, snippet, range, sort } = found;
  return {
    label,
    kind: kinds[kind],
    detail,
    documentation: documentation === undefined ? undefined : { kind: MarkupKind.Markdown, value: documentation },
    insertTextFormat: snippets ? InsertTextFormat.Snippet : InsertTextFormat.PlainText,
    textEdit: { range, newText: snippets ? snippet : withoutPlaces(snippet) },
    filterText: label,
    sortText: sort,
  };
}

/** A snippet's text with the proposals of its places, and without the places. */
export function withoutPlaces(snippet: string): string {
  return snippet
    .replaceAll(/\$\{\d+\|([^,|]*)[^}]*\|\}/g, "$1")
    .replaceAll(/\$\{\d+:([^}]*)\}/g, "$1")
    .replaceAll(/(?<!\\)\$(\d+|\{\d+\})/g, "")
    .replaceAll(/\\([$}\\])/g, "$1");
}

export function toWorkspaceEdit(edits: readonly FileEdits[], uri: UriOf): WorkspaceEdit {
  return {
    changes: Object.fromEntries(
      edits.map(({ file, edits: own }) => [uri(file), own.map(({ range, text }) => ({ range, newText: text }))]),
    ),
  };
}

export function toQuickFix(
  fix: Fix,
  shown: readonly LspDiagnostic[],
  start: LspDiagnostic["range"]["start"],
  uri: UriOf,
): CodeAction {
  return {
    title: fix.title,
    kind: CodeActionKind.QuickFix,
    isPreferred: fix.preferred,
    edit: toWorkspaceEdit([fix.edits], uri),
    diagnostics: shown.filter(
      ({ code, range }) =>
        code === fix.problem.code && range.start.line === start.line && range.start.character === start.character,
    ),
  };
}

const symbolKinds = { section: SymbolKind.Module, frame: SymbolKind.Class, value: SymbolKind.Property } as const;

export const toSymbol = ({ name, detail, kind, range, selection, children }: Symbol): DocumentSymbol => ({
  name,
  detail,
  kind: symbolKinds[kind],
  range,
  selectionRange: selection,
  children: children.map(toSymbol),
});
