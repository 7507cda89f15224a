/**
 * The extension's build for a browser: it starts and answers in a realm that has what a worker has and nothing of Node,
 * on a virtual file system.
 */
import { readFileSync } from "node:fs";
import vm from "node:vm";
import { beforeAll, describe, expect, it } from "vitest";
import { NEEDS_DESKTOP, TEXT_COMMANDS } from "../../../extension/editor/web/web-commands.ts";
import { fakeEditor, type FakeEditor } from "./fake-vscode.ts";

const read = (path: string): string => readFileSync(new URL(`../../../${path}`, import.meta.url), "utf8");
const ROLL = `version: 1
stock: northlight.stock.yaml
frames:
  "01":
    scan: none.dng
    positive: { exposure: 0.5, contrst: 1 }
`;
const FILES = new Map([
  ["/work/harbour.roll.yaml", ROLL],
  ["/work/northlight.stock.yaml", "version: 1\nfilm: colour-negative\npositive: { contrast: 1.4 }\n"],
]);
const SETTINGS = {
  "diagnostics.structural": "always",
  "diagnostics.missingScans": true,
  "format.enable": true,
  allowedFolders: [],
};

let editor: FakeEditor;
let document: ReturnType<FakeEditor["open"]>;
const token = { isCancellationRequested: false };
const ask = async <T>(provider: string, method: string, ...args: unknown[]): Promise<T> =>
  (await editor.providers.get(provider)![method](...(args as never[]))) as T;

beforeAll(() => {
  editor = fakeEditor(FILES, SETTINGS);
  const module = { exports: {} as { activate(context: unknown): void } };
  const require = (name: string): unknown => {
    if (name === "vscode") return editor.api;
    throw new Error(`A browser has no ${name}.`);
  };
  // What a worker of a browser has; no process, Buffer, module loader or file system.
  const globals = { TextDecoder, TextEncoder, URL, setTimeout, clearTimeout, performance, structuredClone, atob, btoa };
  const context = vm.createContext({ ...globals, module, exports: module.exports, require });
  vm.runInContext(read("dist/extension-web.js"), context, { filename: "extension-web.js" });
  module.exports.activate({ subscriptions: [], extensionUri: { path: "/extension" } });
  document = editor.open("/work/harbour.roll.yaml");
});

describe("the extension in a browser", () => {
  it("reports problems of a recipe on a virtual file system", async () => {
    await expect.poll(() => editor.diagnostics.get("/work/harbour.roll.yaml"), { timeout: 20_000 }).toBeDefined();
    const codes = editor.diagnostics.get("/work/harbour.roll.yaml")!.map(({ code }) => code.value);
    expect(codes).toEqual(["missing-scan", "unknown-key"]);
  });

  it("hovers, completes, folds, outlines and formats", async () => {
    const at = document.positionAt(ROLL.indexOf("exposure") + 2);
    const hover = await ask<{ args: [{ args: [string] }] }>("Hover", "provideHover", document, at, token);
    expect(hover.args[0].args[0]).toMatch(/\*\*exposure\*\* · EV/);
    const end = document.positionAt(ROLL.length);
    const items = await ask<{ label: string }[]>("CompletionItem", "provideCompletionItems", document, end, token);
    expect(items.map(({ label }) => label)).toEqual(expect.arrayContaining(["light", "negative"]));
    expect(await ask<object[]>("FoldingRange", "provideFoldingRanges", document, undefined, token)).toHaveLength(2);
    const symbols = await ask<object[]>("DocumentSymbol", "provideDocumentSymbols", document, token);
    expect(symbols).toHaveLength(3);
    const edits = await ask<{ text: string }[]>("DocumentFormattingEdit", "provideDocumentFormattingEdits", document);
    expect(edits.length).toBeLessThan(2);
  });

  it("says of the others that they need a desktop, and leaves no command without an answer", () => {
    const { commands, browser } = (() => {
      const manifest = JSON.parse(read("package.json")) as {
        browser: string;
        contributes: { commands: { command: string }[] };
      };
      return { commands: manifest.contributes.commands.map(({ command }) => command), browser: manifest.browser };
    })();
    expect(browser).toBe("./dist/extension-web.js");
    expect([...NEEDS_DESKTOP, ...TEXT_COMMANDS].map((name) => `rollbook.${name}`).toSorted()).toEqual(
      commands.toSorted(),
    );
    for (const name of commands) expect([name, editor.commands.has(name)]).toEqual([name, true]);
    editor.commands.get("rollbook.openPreview")!();
    expect(editor.messages[0]).toContain("need VS Code on a desktop, or a remote");
  });
});
