/**
 * The text features by the extension's build for a browser, on a virtual file system: dist/extension-web.js in a realm that
 * has what a worker of a browser has, and nothing of Node.
 */
import { readFileSync } from "node:fs";
import vm from "node:vm";
import type { Completion } from "../../../../extension/recipe/language/completion/completion.ts";
import type { Symbol } from "../../../../extension/recipe/language/symbols.ts";
import type { FileEdits, Place, Range } from "../../../../extension/recipe/language/types.ts";
import {
  type FakeDiagnostic,
  fakeEditor,
  FakePosition,
  FakeRange,
  type FakeUri,
  type FakeWorkspaceEdit,
  type Provider,
} from "../../editor/fake-vscode.ts";
import type { OpenedRecipe, TextFeatures } from "./features-offered.ts";
import { marked } from "./memory.ts";

const bundle = new URL("../../../../dist/extension-web.js", import.meta.url);
const script = new vm.Script(readFileSync(bundle, "utf8"), { filename: "extension-web.js" });
const SETTINGS = {
  "diagnostics.structural": "always",
  "diagnostics.missingScans": true,
  "format.enable": true,
  "inlayHints.inherited": true,
  "codeLens.frames": true,
  allowedFolders: [],
};
const token = { isCancellationRequested: false };

const placeOf = ({ line, character }: Place): Place => ({ line, character });
const rangeOf = ({ start, end }: Range): Range => ({ start: placeOf(start), end: placeOf(end) });
/** Links of hovers in the form of the memory workspace: a path, and a line. */
const withPaths = (markdown: string): string =>
  markdown.replaceAll(/vscode-vfs:\/\/host(\/[^)\s#]*)(#L\d+)?(?:,\d+)?/g, (_, path: string, line = "") => path + line);
const editsOf = ({ files }: FakeWorkspaceEdit): FileEdits[] =>
  Array.from(files, ([file, edits]) => ({
    file,
    edits: edits.map(({ range, text }) => ({ range: rangeOf(range), text })),
  }));

interface FakeSymbol {
  readonly name: string;
  readonly detail: string;
  readonly kind: "Module" | "Class" | "Property";
  readonly range: Range;
  readonly selectionRange: Range;
  readonly children: readonly FakeSymbol[];
}
const SYMBOLS = { Module: "section", Class: "frame", Property: "value" } as const;
const symbolOf = ({ name, detail, kind, range, selectionRange, children }: FakeSymbol): Symbol => ({
  name,
  detail,
  kind: SYMBOLS[kind],
  range: rangeOf(range),
  selection: rangeOf(selectionRange),
  children: Array.from(children, symbolOf),
});

interface FakeItem {
  readonly label: string;
  readonly kind: string;
  readonly detail?: string;
  readonly documentation?: { readonly args: readonly [string] };
  readonly insertText: { readonly args: readonly [string] };
  readonly range: { readonly replacing: Range };
  readonly sortText: string;
}
/** Sections and keys have one look in an editor each; values, frames, files and folders another. */
const KINDS: Readonly<Record<string, Completion["kind"]>> = {
  Module: "section",
  Property: "key",
  Value: "value",
  Class: "frame",
  File: "file",
  Folder: "folder",
};

interface FakeAction {
  readonly title: string;
  readonly isPreferred?: boolean;
  readonly diagnostics?: readonly unknown[];
  readonly edit?: FakeWorkspaceEdit;
}

export const browserBuild: TextFeatures = {
  name: "by the build for a browser",
  async open(roll, others = {}, name = "harbour.roll.yaml") {
    const { text, offset } = roll.includes("|") ? marked(roll) : { text: roll, offset: 0 };
    const files = new Map(Object.entries({ ...others, [name]: text }).map(([file, one]) => [`/w/${file}`, one]));
    const editor = fakeEditor(files, SETTINGS, "/w");
    const module = { exports: {} as { activate(context: unknown): void } };
    const require = (wanted: string): unknown => {
      if (wanted === "vscode") return editor.api;
      throw new Error(`A browser has no ${wanted}.`);
    };
    const worker = {
      TextDecoder,
      TextEncoder,
      URL,
      setTimeout,
      clearTimeout,
      performance,
      structuredClone,
      atob,
      btoa,
    };
    script.runInContext(vm.createContext({ ...worker, module, exports: module.exports, require }));
    module.exports.activate({ subscriptions: [], extensionUri: { path: "/extension" } });
    const document = editor.open(`/w/${name}`);
    const at = document.positionAt(offset);
    const everything = new FakeRange(new FakePosition(0, 0), document.positionAt(text.length));
    const call = async <T>(provider: Provider | undefined, method: string, ...args: unknown[]): Promise<T> =>
      (await provider![method](...(args as never[]))) as T;
    const ask = <T>(kind: string, method: string, ...args: unknown[]): Promise<T> =>
      call(editor.providers.get(kind), method, ...args);

    async function found(): Promise<readonly FakeDiagnostic[]> {
      for (let tries = 0; tries < 2000; tries++) {
        const shown = editor.diagnostics.get(`/w/${name}`);
        if (shown) return Array.from(shown);
        await new Promise((done) => setTimeout(done, 5));
      }
      throw new Error("The build for a browser published no problems within ten seconds.");
    }
    /** Fixes are registered first, then moves. */
    const actions = async (which: 0 | 1, range: FakeRange, context: object): Promise<FakeAction[]> => {
      const provider = editor.everyProvider.get("CodeActions")![which];
      return Array.from(
        await call<FakeAction[]>(
          provider,
          "provideCodeActions",
          document,
          range,
          { diagnostics: [], ...context },
          token,
        ),
      );
    };
    const kindOf = (value: string) => {
      const kind = { value, contains: (other: { value: string }) => other.value === value };
      return { ...kind, intersects: ({ value: other }: { value: string }) => other.startsWith(value) };
    };

    const opened: OpenedRecipe = {
      text,
      files,
      problems: async () =>
        (await found()).map(({ code, message, range }) => ({ code: code.value, message, range: rangeOf(range) })),
      async hover() {
        const shown = await ask<{ args: [{ args: [string] }, Range] } | undefined>(
          "Hover",
          "provideHover",
          document,
          at,
          token,
        );
        return shown && { contents: withPaths(shown.args[0].args[0]), range: rangeOf(shown.args[1]) };
      },
      async definition() {
        type Link = { originSelectionRange: Range; targetUri: FakeUri; targetRange: Range };
        const [link] = (await ask<Link[] | undefined>("Definition", "provideDefinition", document, at, token)) ?? [];
        return (
          link && {
            from: rangeOf(link.originSelectionRange),
            file: link.targetUri.path,
            range: rangeOf(link.targetRange),
          }
        );
      },
      async links() {
        type Link = { range: Range; target: FakeUri };
        const links = await ask<Link[]>("DocumentLink", "provideDocumentLinks", document, token);
        return Array.from(links, ({ range, target }) => ({ range: rangeOf(range), file: target.path }));
      },
      symbols: async () =>
        Array.from(await ask<FakeSymbol[]>("DocumentSymbol", "provideDocumentSymbols", document, token), symbolOf),
      async folds() {
        type Fold = { start: number; end: number; kind?: string };
        const folds = await ask<Fold[]>("FoldingRange", "provideFoldingRanges", document, undefined, token);
        return Array.from(folds, ({ start, end, kind }) => ({
          start,
          end,
          ...(kind === "Comment" ? { kind: "comment" as const } : {}),
        }));
      },
      async inlays(first, last) {
        type Part = { value: string; tooltip?: string; location?: { uri: FakeUri; range: Place } };
        const range = new FakeRange(first, 0, last, 0);
        const hints = await ask<{ position: Place; label: [Part] }[]>(
          "InlayHints",
          "provideInlayHints",
          document,
          range,
          token,
        );
        return Array.from(hints, ({ position, label: [{ value, tooltip, location }] }) => ({
          at: placeOf(position),
          label: value,
          tooltip,
          origin: location && { file: location.uri.path, line: location.range.line + 1 },
        }));
      },
      async lenses() {
        type Lens = { range: Range; command?: { title: string } };
        const lenses = Array.from(await ask<Lens[]>("CodeLens", "provideCodeLenses", document, token));
        const resolved = await Promise.all(lenses.map((lens) => ask<Lens>("CodeLens", "resolveCodeLens", lens)));
        return resolved.map(({ range, command }) => ({
          range: rangeOf(range),
          problems: Number(/^(\d+) problem/.exec(command!.title)![1]),
        }));
      },
      renameable: () =>
        ask<{ placeholder: string }>("Rename", "prepareRename", document, at).then(
          ({ placeholder }) => placeholder,
          () => undefined,
        ),
      rename: (to) =>
        ask<FakeWorkspaceEdit>("Rename", "provideRenameEdits", document, at, to).then(
          (edit) => editsOf(edit)[0]?.edits ?? [],
          (error: Error) => ({ problem: error.message }),
        ),
      async completions() {
        const items = await ask<FakeItem[]>("CompletionItem", "provideCompletionItems", document, at, token);
        return Array.from(items, ({ label, kind, detail, documentation, insertText, range, sortText }) => ({
          label,
          kind: KINDS[kind],
          ...(detail === undefined ? {} : { detail }),
          ...(documentation ? { documentation: withPaths(documentation.args[0]) } : {}),
          snippet: insertText.args[0],
          range: rangeOf(range.replacing),
          sort: sortText,
        }));
      },
      async fixes(code) {
        const problem = (await found()).find((one) => one.code.value === code);
        if (!problem) return [];
        const offered = await actions(0, problem.range, { diagnostics: [problem] });
        return offered
          .filter(({ diagnostics }) => (diagnostics?.length ?? 0) > 0)
          .map(({ title, isPreferred, edit }) => ({
            title,
            preferred: isPreferred === true,
            edits: editsOf(edit!)[0].edits,
          }));
      },
      async fixAll() {
        const [all] = await actions(0, everything, { only: kindOf("source.fixAll") });
        return all && editsOf(all.edit!)[0].edits;
      },
      async move(target) {
        const offered = await actions(1, new FakeRange(at, at), {});
        const action = offered.find(({ title }) => title.endsWith(`to the ${target}`));
        if (!action) return undefined;
        const before = editor.messages.length;
        const provider = editor.everyProvider.get("CodeActions")![1];
        const resolved = await call<FakeAction>(provider, "resolveCodeAction", action);
        return resolved.edit ? editsOf(resolved.edit) : { problem: editor.messages[before] };
      },
      async formatted() {
        type Edit = { text: string };
        const edits = await ask<Edit[]>("DocumentFormattingEdit", "provideDocumentFormattingEdits", document);
        return edits[0]?.text ?? text;
      },
    };
    return opened;
  },
};
