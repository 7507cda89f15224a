/** The proposal of a line for `.gitignore`, with git and files as they are and of the editor no more than is asked. */
import { execFileSync } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";

/** What the person was asked, and the edits that were applied. */
const asked: string[] = [];
const created: { readonly file: string; readonly text: string }[] = [];

vi.mock("vscode", () => ({
  l10n: { t: (text: string) => text },
  Uri: { file: (fsPath: string) => ({ fsPath }) },
  WorkspaceEdit: class {
    createFile({ fsPath }: { fsPath: string }, { contents }: { contents: Uint8Array }): void {
      created.push({ file: fsPath, text: new TextDecoder().decode(contents) });
    }
    insert({ fsPath }: { fsPath: string }, _at: unknown, text: string): void {
      created.push({ file: fsPath, text });
    }
  },
  window: {
    showInformationMessage: async (message: string, choice: string) => {
      asked.push(message);
      return choice;
    },
  },
  workspace: {
    asRelativePath: (path: string) => path,
    applyEdit: async () => true,
    openTextDocument: async ({ fsPath }: { fsPath: string }) => {
      const lines = (existsSync(fsPath) ? readFileSync(fsPath, "utf8") : "").split("\n");
      return {
        lineCount: lines.length,
        lineAt: (line: number) => ({ range: { end: { line, character: lines[line].length } } }),
        save: async () => true,
      };
    },
  },
}));

const { proposeIgnoring } = await import("../../../../extension/editor/roll-work/git-ignore.ts");

let root = "";
const log = { debug: () => undefined } as never;
const pictures = (): string => join(root, "pictures");

beforeEach(() => {
  asked.length = created.length = 0;
  root = mkdtempSync(join(tmpdir(), "git-ignore-"));
  execFileSync("git", ["init", "-q", root]);
  mkdirSync(join(pictures(), "web"), { recursive: true });
  writeFileSync(join(pictures(), "web", "a-01.jpg"), "x");
});
afterEach(() => rmSync(root, { recursive: true, force: true }));

describe("pictures that git would list", () => {
  it("have a line proposed, and the file made where there is none", async () => {
    await proposeIgnoring(pictures(), ["web/a-01.jpg"], log);
    expect(asked).toHaveLength(1);
    expect(created).toEqual([{ file: join(root, ".gitignore"), text: "/pictures/web/\n" }]);
  });

  it("have the line added below what stands there", async () => {
    writeFileSync(join(root, ".gitignore"), "*.part");
    await proposeIgnoring(pictures(), ["web/a-01.jpg"], log);
    expect(created).toEqual([{ file: join(root, ".gitignore"), text: "\n/pictures/web/\n" }]);
  });

  it.each([
    ["to a file outside of the repository", "outside"],
    ["to nothing", "missing"],
  ])("have none proposed where .gitignore is a symbolic link %s", async (_what, name) => {
    const outside = mkdtempSync(join(tmpdir(), "git-ignore-link-"));
    try {
      const target = join(outside, name);
      if (name === "outside") writeFileSync(target, "*.part\n");
      symlinkSync(target, join(root, ".gitignore"));
      await proposeIgnoring(pictures(), ["web/a-01.jpg"], log);
      expect([asked, created]).toEqual([[], []]);
      expect(existsSync(target) && readFileSync(target, "utf8")).toBe(name === "outside" && "*.part\n");
    } finally {
      rmSync(outside, { recursive: true });
    }
  });
});

describe("nothing is proposed", () => {
  it("where git ignores the pictures already", async () => {
    writeFileSync(join(root, ".gitignore"), "pictures/\n");
    await proposeIgnoring(pictures(), ["web/a-01.jpg"], log);
    expect(asked).toEqual([]);
  });

  it("where nothing was written, or the folder is in no repository", async () => {
    await proposeIgnoring(pictures(), [], log);
    rmSync(join(root, ".git"), { recursive: true });
    await proposeIgnoring(pictures(), ["web/a-01.jpg"], log);
    expect(asked).toEqual([]);
  });
});
