/**
 * A conversation with `rollbook language-server --stdio`, by the protocol's own client library: what an editor asks, and
 * what it is answered. The forms are those of the Language Server Protocol, version 3.17.
 */
import { type ChildProcess, spawn } from "node:child_process";
import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import {
  CodeActionRequest,
  CodeActionResolveRequest,
  type CodeAction,
  CompletionRequest,
  type CompletionItem,
  createProtocolConnection,
  DefinitionRequest,
  DidChangeTextDocumentNotification,
  DidChangeWatchedFilesNotification,
  DidCloseTextDocumentNotification,
  DidOpenTextDocumentNotification,
  DocumentFormattingRequest,
  DocumentLinkRequest,
  DocumentSymbolRequest,
  ExitNotification,
  FileChangeType,
  FoldingRangeRequest,
  HoverRequest,
  InitializedNotification,
  InlayHintRequest,
  type InlayHintLabelPart,
  InitializeRequest,
  type InitializeResult,
  PrepareRenameRequest,
  type ProtocolConnection,
  PublishDiagnosticsNotification,
  type PublishDiagnosticsParams,
  RenameRequest,
  ShutdownRequest,
  type TextEdit,
} from "vscode-languageserver-protocol/node";

const program = fileURLToPath(new URL("../../../dist/rollbook.mjs", import.meta.url));
const ROLL = `version: 1
title: First light
stock: ../stocks/northlight.stock.yaml
scans: scans
frames:
  "01":
    scan: H0001.dng
    positive: { exposure: 0.5, contrst: 1.2 }
  "02":
    scan: H0002.dng
`;
const STOCK = `version: 1
film: colour-negative
positive:
  contrast: 1.4
`;

let folder = "";
let child: ChildProcess;
let client: ProtocolConnection;
let started: InitializeResult;
const published: PublishDiagnosticsParams[] = [];
const uri = (name: string): string => pathToFileURL(join(folder, name)).href;
const rollUri = (): string => uri("rolls/harbour.roll.yaml");

/** The place of a text in the roll, one character into it. */
function at(text: string, source = ROLL): { line: number; character: number } {
  const before = source.slice(0, source.indexOf(text) + 1);
  const lines = before.split("\n");
  return { line: lines.length - 1, character: lines.at(-1)!.length };
}
const document = () => ({ textDocument: { uri: rollUri() } });

/** The next list of problems for a document of at least a version. */
async function problemsOf(uri: string, version?: number): Promise<PublishDiagnosticsParams> {
  for (let tries = 0; tries < 400; tries++) {
    const found = published.findLast((one) => one.uri === uri && (version === undefined || one.version === version));
    if (found) return found;
    await new Promise((resolve) => setTimeout(resolve, 25));
  }
  throw new Error(`No problems of ${uri} were published.`);
}

/** A text after edits, applied from the last to the first. */
function edited(text: string, edits: readonly TextEdit[]): string {
  const lines = text.split("\n");
  const offset = ({ line, character }: { line: number; character: number }): number =>
    lines.slice(0, line).reduce((sum, one) => sum + one.length + 1, 0) + character;
  return [...edits]
    .toSorted((a, b) => offset(b.range.start) - offset(a.range.start))
    .reduce(
      (now, { range, newText }) => now.slice(0, offset(range.start)) + newText + now.slice(offset(range.end)),
      text,
    );
}

beforeAll(async () => {
  folder = realpathSync(mkdtempSync(join(tmpdir(), "server-")));
  mkdirSync(join(folder, "rolls/scans"), { recursive: true });
  mkdirSync(join(folder, "stocks"));
  writeFileSync(join(folder, "rolls/scans/H0001.dng"), "");
  writeFileSync(join(folder, "rolls/harbour.roll.yaml"), ROLL);
  writeFileSync(join(folder, "stocks/northlight.stock.yaml"), STOCK);
  child = spawn(process.execPath, [program, "language-server", "--stdio"], { stdio: ["pipe", "pipe", "inherit"] });
  client = createProtocolConnection(child.stdout!, child.stdin!);
  client.onNotification(PublishDiagnosticsNotification.type, (params) => void published.push(params));
  client.listen();
  started = await client.sendRequest(InitializeRequest.type, {
    processId: process.pid,
    rootUri: null,
    workspaceFolders: [{ uri: pathToFileURL(folder).href, name: "work" }],
    capabilities: { textDocument: { completion: { completionItem: { snippetSupport: false } } } },
  });
  await client.sendNotification(InitializedNotification.type, {});
  await client.sendNotification(DidOpenTextDocumentNotification.type, {
    textDocument: { uri: rollUri(), languageId: "yaml", version: 1, text: ROLL },
  });
}, 30_000);

afterAll(() => {
  client.dispose();
  child.kill();
  rmSync(folder, { recursive: true, force: true });
});

describe("the language server", () => {
  it("names itself and what it can do", () => {
    const { serverInfo, capabilities } = started;
    expect(serverInfo?.name).toBe("rollbook");
    expect(capabilities).toMatchObject({
      hoverProvider: true,
      definitionProvider: true,
      foldingRangeProvider: true,
      documentFormattingProvider: true,
      renameProvider: { prepareProvider: true },
    });
  });

  it("publishes the problems of an opened recipe, those that other files cause included", async () => {
    const { diagnostics } = await problemsOf(rollUri(), 1);
    expect(diagnostics.map(({ code, severity, source }) => [code, severity, source])).toEqual([
      ["unknown-key", 1, "Rollbook"],
      ["missing-scan", 2, "Rollbook"],
    ]);
    expect(diagnostics[0].range.start).toEqual({ line: 7, character: 31 });
  });

  it("hovers with unit, range and where a value comes from", async () => {
    const hover = await client.sendRequest(HoverRequest.type, { ...document(), position: at("exposure: 0.5") });
    expect(hover?.contents).toMatchObject({ kind: "markdown", value: expect.stringMatching(/\*\*exposure\*\* · EV/) });
    expect(hover?.range?.start).toEqual({ line: 7, character: 16 });
    expect(await client.sendRequest(HoverRequest.type, { ...document(), position: { line: 10, character: 0 } })).toBe(
      null,
    );
  });

  it("completes keys as plain text for a client without snippets", async () => {
    const items = (await client.sendRequest(CompletionRequest.type, {
      ...document(),
      position: { line: 10, character: 0 },
    })) as CompletionItem[];
    expect(items.map(({ label }) => label)).toEqual(expect.arrayContaining(["light", "negative", "output"]));
    for (const { textEdit } of items) expect(textEdit?.newText).not.toMatch(/\$\{|\$\d/);
  });

  it("leads to the stock that a roll names, and to the value that a frame replaces", async () => {
    const stock = await client.sendRequest(DefinitionRequest.type, { ...document(), position: at("../stocks") });
    expect(stock).toMatchObject({ uri: uri("stocks/northlight.stock.yaml") });
    const links = await client.sendRequest(DocumentLinkRequest.type, document());
    expect(links?.map(({ target }) => target)).toEqual([
      uri("stocks/northlight.stock.yaml"),
      uri("rolls/scans/H0001.dng"),
    ]);
  });

  it("hints at what a frame's value replaces, and where that stands", async () => {
    const end = { line: 20, character: 0 };
    const replaced = ROLL.replace("exposure: 0.5, contrst: 1.2", "contrast: 1.2");
    const other = { uri: uri("rolls/quay.roll.yaml"), languageId: "yaml", version: 1, text: replaced };
    await client.sendNotification(DidOpenTextDocumentNotification.type, { textDocument: other });
    const range = { start: { line: 0, character: 0 }, end };
    const hints = await client.sendRequest(InlayHintRequest.type, { textDocument: { uri: other.uri }, range });
    const [part] = hints![0].label as InlayHintLabelPart[];
    expect([hints!.length, part.value]).toEqual([1, expect.stringContaining("1.4")]);
    expect(part.location).toMatchObject({ uri: uri("stocks/northlight.stock.yaml"), range: { start: { line: 3 } } });
    await client.sendNotification(DidCloseTextDocumentNotification.type, { textDocument: { uri: other.uri } });
  });

  it("offers a fix that solves the problem, and all safe ones at once", async () => {
    const { diagnostics } = await problemsOf(rollUri(), 1);
    const actions = (await client.sendRequest(CodeActionRequest.type, {
      ...document(),
      range: diagnostics[0].range,
      context: { diagnostics: [diagnostics[0]], only: ["quickfix"] },
    })) as CodeAction[];
    expect(actions[0]).toMatchObject({ kind: "quickfix", isPreferred: true, diagnostics: [{ code: "unknown-key" }] });
    expect(edited(ROLL, actions[0].edit!.changes![rollUri()])).toContain("{ exposure: 0.5, contrast: 1.2 }");
    const [all] = (await client.sendRequest(CodeActionRequest.type, {
      ...document(),
      range: diagnostics[0].range,
      context: { diagnostics: [], only: ["source.fixAll"] },
    })) as CodeAction[];
    expect(edited(ROLL, all.edit!.changes![rollUri()])).toContain("contrast: 1.2");
  });

  it("folds frames, outlines them, and renames one", async () => {
    const folds = await client.sendRequest(FoldingRangeRequest.type, document());
    expect(folds?.map(({ startLine, endLine }) => [startLine, endLine])).toEqual([
      [4, 9],
      [5, 7],
      [8, 9],
    ]);
    const outline = await client.sendRequest(DocumentSymbolRequest.type, document());
    expect(outline?.map(({ name }) => name)).toEqual(["version", "title", "stock", "scans", "frames"]);
    const position = at("01");
    expect(await client.sendRequest(PrepareRenameRequest.type, { ...document(), position })).toMatchObject({
      placeholder: "01",
    });
    const renamed = await client.sendRequest(RenameRequest.type, { ...document(), position, newName: "12A" });
    expect(edited(ROLL, renamed!.changes![rollUri()])).toContain('  "12A":\n    scan: H0001.dng');
    await expect(client.sendRequest(RenameRequest.type, { ...document(), position, newName: "02" })).rejects.toThrow(
      "There is a frame 02 already.",
    );
  });

  it("follows the text as it is typed, and formats it", async () => {
    const text = ROLL.replace(", contrst: 1.2", "")
      .replace("title: First light\nstock", "stock")
      .replace("scans: scans\n", "");
    const loose = text.replace("version: 1\n", "").replace("frames:", "scans: scans\nversion: 1\nframes:");
    await client.sendNotification(DidChangeTextDocumentNotification.type, {
      textDocument: { uri: rollUri(), version: 2 },
      contentChanges: [{ text: loose }],
    });
    const { diagnostics } = await problemsOf(rollUri(), 2);
    expect(diagnostics.map(({ code }) => code)).toEqual(["missing-scan"]);
    const edits = await client.sendRequest(DocumentFormattingRequest.type, {
      ...document(),
      options: { tabSize: 2, insertSpaces: true },
    });
    expect(edited(loose, edits!).split("\n").slice(0, 3)).toEqual([
      "version: 1",
      "stock: ../stocks/northlight.stock.yaml",
      "scans: scans",
    ]);
  });

  it("moves a value up to the stock, in both files, when it is chosen", async () => {
    const text = ROLL.replace("contrst: 1.2", "contrast: 1.4").replace(
      "scans: scans",
      "scans: scans\npositive: { toe: 0.2 }",
    );
    await client.sendNotification(DidChangeTextDocumentNotification.type, {
      textDocument: { uri: rollUri(), version: 3 },
      contentChanges: [{ text }],
    });
    const position = at("toe: 0.2", text);
    const actions = (await client.sendRequest(CodeActionRequest.type, {
      ...document(),
      range: { start: position, end: position },
      context: { diagnostics: [], only: ["refactor"] },
    })) as CodeAction[];
    expect(actions.map(({ title }) => title)).toEqual(["Move positive.toe to the stock"]);
    expect(actions[0].edit).toBeUndefined();
    const chosen = await client.sendRequest(CodeActionResolveRequest.type, actions[0]);
    const changes = chosen.edit!.changes!;
    expect(edited(STOCK, changes[uri("stocks/northlight.stock.yaml")])).toContain("toe: 0.2");
    expect(edited(text, changes[rollUri()])).not.toContain("toe");
  });

  it("sees a scan that comes, and forgets a recipe that is closed", async () => {
    expect((await problemsOf(rollUri(), 3)).diagnostics).toHaveLength(1);
    writeFileSync(join(folder, "rolls/scans/H0002.dng"), "");
    published.length = 0;
    await client.sendNotification(DidChangeWatchedFilesNotification.type, {
      changes: [{ uri: uri("rolls/scans/H0002.dng"), type: FileChangeType.Created }],
    });
    expect((await problemsOf(rollUri(), 3)).diagnostics).toEqual([]);
    published.length = 0;
    await client.sendNotification(DidCloseTextDocumentNotification.type, document());
    expect((await problemsOf(rollUri())).diagnostics).toEqual([]);
    expect(await client.sendRequest(HoverRequest.type, { ...document(), position: at("title") })).toBe(null);
  });

  it("ends when it is asked to, with exit code 0", async () => {
    const ended = new Promise<number | null>((resolve) => child.on("exit", resolve));
    await client.sendRequest(ShutdownRequest.type);
    await client.sendNotification(ExitNotification.type);
    expect(await ended).toBe(0);
  });
});
