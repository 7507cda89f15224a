import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { describe, expect, it } from "vitest";
import { FINDING_KINDS } from "../../../extension/engine/survey/catalogue.ts";
import { messagesIn } from "./messages.ts";
import { RAW_ENDINGS } from "../../../extension/recipe/scan-names.ts";

const root = resolve(import.meta.dirname, "../../..");
const read = (path: string) => JSON.parse(readFileSync(join(root, path), "utf8"));
const manifest = read("package.json");
const words: Record<string, string> = read("package.nls.json");
const contributes = manifest.contributes;

const sources = (folder: string): string[] =>
  readdirSync(join(root, folder), { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".ts"))
    .map((name) => readFileSync(join(root, folder, name), "utf8"));
const editor = sources("extension/editor");

describe("the manifest", () => {
  it("declares exactly the commands that are registered", () => {
    const declared = contributes.commands.map(({ command }: { command: string }) => command).toSorted();
    // Lenses alone run these: they have no place in the palette.
    const inner = ["rollbook.showProblem"];
    const call = /(?:register(?:Command)?\(\s*|const command = )"(rollbook\.\w+)"/g;
    const registered = new Set(editor.flatMap((text) => [...text.matchAll(call)].map(([, id]) => id!)));
    expect(declared.filter((id: string) => !registered.has(id))).toEqual([]);
    expect([...registered].filter((id) => !declared.includes(id) && !inner.includes(id))).toEqual([]);
  });

  it("names every command's category, and only commands that it declares in menus", () => {
    for (const command of contributes.commands) expect(command).toMatchObject({ category: "Rollbook" });
    const declared = new Set(contributes.commands.map(({ command }: { command: string }) => command));
    for (const items of Object.values<{ command: string }[]>(contributes.menus))
      for (const { command } of items) expect(declared).toContain(command);
  });

  it("describes, scopes and defaults every setting, and the code reads no other", () => {
    const properties: Record<
      string,
      { scope?: string; default?: unknown; description?: string; markdownDescription?: string }
    > = contributes.configuration.properties;
    for (const [name, one] of Object.entries(properties)) {
      expect(name).toMatch(/^rollbook\./);
      expect(one.scope).toBeDefined();
      expect(one.default).toBeDefined();
      expect(one.description ?? one.markdownDescription).toMatch(/^%.*%$/);
    }
    for (const text of editor)
      for (const [, name] of text.matchAll(/\bsetting\("([\w.]+)"/g))
        expect(properties).toHaveProperty([`rollbook.${name}`]);
  });

  it("has words for every placeholder, and no words without one", () => {
    const used = new Set([...JSON.stringify(manifest).matchAll(/"%([\w.]+)%"/g)].map(([, key]) => key!));
    expect([...used].filter((key) => !(key in words))).toEqual([]);
    expect(Object.keys(words).filter((key) => !used.has(key))).toEqual([]);
  });

  it("points to files that are there", () => {
    for (const [, path] of JSON.stringify({ icon: manifest.icon, contributes }).matchAll(
      /"((?:\.\/|extension\/)[^"]+\.(?:json|svg|png))"/g,
    ))
      expect(existsSync(join(root, path!))).toBe(true);
  });

  it("starts with a recipe or with raw files alone, and says what an untrusted folder allows", () => {
    const events = manifest.activationEvents as string[];
    const raw = events.flatMap((event) => /^workspaceContains:\*\*\/\*\.\{(.*)\}$/.exec(event)?.[1]?.split(",") ?? []);
    const others = events.filter((event) => !event.includes("{"));
    expect(others).toHaveLength(events.length - 1);
    for (const event of others)
      expect(event).toMatch(/^workspaceContains:\*\*\/\*\.(roll|stock)\.ya?ml$|^onWebviewPanel:/);
    // "[dD][nN][gG]": cameras write their endings in capitals, and globs tell letters apart.
    const either = (ending: string) => ending.replace(/[a-z]/g, (letter) => `[${letter}${letter.toUpperCase()}]`);
    expect(raw).toEqual([...RAW_ENDINGS].map(either));
    expect(manifest.capabilities.untrustedWorkspaces).toMatchObject({
      supported: "limited",
      restrictedConfigurations: ["rollbook.allowedFolders"],
    });
    expect(manifest.capabilities.virtualWorkspaces.supported).toBe("limited");
    expect(manifest.extensionKind).toEqual(["workspace"]);
  });

  it("gives the schemas to people with a YAML extension", () => {
    for (const { fileMatch, url } of contributes.yamlValidation) {
      expect(fileMatch).toMatch(/^\*\.(roll|stock)\.ya?ml$/);
      expect(read(url).$schema).toBe("http://json-schema.org/draft-07/schema#");
    }
  });

  it("draws its walkthrough in the theme's colours alone", () => {
    for (const { steps } of contributes.walkthroughs)
      for (const { media } of steps) {
        const drawing = readFileSync(join(root, media.svg), "utf8");
        expect(drawing).toContain("var(--vscode-");
        expect(drawing).not.toMatch(/#[0-9a-f]{3,8}\b|rgba?\(/i);
      }
  });
});

describe("messages", () => {
  const spoken = [
    "extension/recipe/language",
    "extension/engine/survey",
    "extension/engine/verdict",
    "extension/work",
    "webview",
  ];

  it("that can be translated are exactly those of the bundle", () => {
    const bundle: Record<string, string> = read("extension/editor/l10n/bundle.l10n.json");
    const marked = messagesIn([...editor, ...spoken.flatMap(sources)]);
    expect(marked.length).toBeGreaterThan(450);
    expect(marked.filter((message) => !(message in bundle))).toEqual([]);
    expect(Object.keys(bundle).filter((message) => !marked.includes(message))).toEqual([]);
    for (const [message, text] of Object.entries(bundle)) expect(text).toBe(message);
  });

  it("of the survey include every kind's unit, cause and remedy", () => {
    const bundle: Record<string, string> = read("extension/editor/l10n/bundle.l10n.json");
    const marked = FINDING_KINDS.flatMap(({ unit, cause, remedy }) => [unit, cause, remedy]);
    expect(marked.filter((words) => !(words in bundle))).toEqual([]);
  });

  it("that the host sends a panel in place of an answer can all be translated", () => {
    // Files without the editor's interface take their sentences from the room of the scans.
    const notes = editor
      .filter((text) => text.includes('from "vscode"'))
      .flatMap((text) => [...text.matchAll(/new JobError\(\{[^}]*?message:\s*([^\s(]*)/g)]);
    expect(notes.length).toBeGreaterThan(4);
    expect(notes.map(([, start]) => start!).filter((start) => start !== "vscode.l10n.t")).toEqual([]);
  });
});
