/** Attacks by way of texts of recipes and camera files, wherever they are shown; docs/security.md has the table. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { PassThrough } from "node:stream";
import { describe, expect, test } from "vitest";
import { openTerminal } from "../../extension/cli/terminal.ts";
import { markdown, markdownCode, plain, plainJson } from "../../extension/recipe/plain-text.ts";
import { hover } from "../../extension/recipe/language/hover.ts";
import type { Review } from "../../extension/review-report.ts";
import { exifFields } from "../../extension/scans/output/exif.ts";
import { xmpPacket } from "../../extension/scans/output/xmp.ts";
import { contactLayout, contactOverlay } from "../../extension/work/contact/contact-sheet.ts";
import { markdownOf } from "../../extension/work/review/markdown.ts";
import { pageOf } from "../../extension/work/review/page.ts";
import { english } from "../../extension/recipe/language/types.ts";
import { open } from "../unit/recipe/language/memory.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));

/** Texts as a colleague's recipe or a camera's EXIF may hold them. */
const texts: readonly [name: string, text: string][] = [
  ["markup", `<script>alert(1)</script><img src=x onerror=alert(1)>`],
  ["the end of an attribute", `" onmouseover="alert(1)`],
  ["the end of a script", `</script><script>alert(1)</script><!--`],
  ["an entity", `&lt;b&gt; &#60;b&#62; ]]>`],
  ["a picture in Markdown", `![x](https://host.example/spy.png)`],
  ["a link in Markdown", `[press me](command:workbench.action.terminal.new)`],
  ["a bare address", `https://host.example www.host.example mailto:a@host.example`],
  ["the end of code and of a table", "`` ` | x\n| y"],
  ["an escape sequence", "\u001b]0;title\u0007\u001b[2J\u001b[31mred"],
  ["C1 control characters", "\u009b2J\u0090q\u009c"],
  ["text that turns around", "\u202egnp.exe\u2066\u061c"],
  ["line ends", "a\r\nb\u2028c\u2029d\u0085e"],
];

// eslint-disable-next-line no-control-regex
const CONTROL = /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]/;

describe.each(texts)("%s", (_, text) => {
  test("on a terminal", () => {
    const [out, err] = [new PassThrough(), new PassThrough()];
    const terminal = openTerminal({ out, err });
    terminal.print(text);
    terminal.printError(text);
    const output = String(out.read()) + String(err.read());
    expect(output.split("\n")).toHaveLength(3);
    expect(output).not.toMatch(CONTROL);
    const json = new PassThrough();
    openTerminal({ out: json, err }, { json: true }).result({ text });
    const written = String(json.read());
    expect(written).not.toMatch(CONTROL);
    expect(JSON.parse(written)).toEqual({ text });
  });

  test("in Markdown", () => {
    const shown = markdown(text);
    expect(shown).not.toMatch(/[<>[\]`*_|!@\n]|https?:\/\/|www\.|mailto:|command:/);
    expect(shown).not.toMatch(CONTROL);
    const code = markdownCode(text);
    const [fence] = /^`+/.exec(code)!;
    expect(code.slice(fence.length, -fence.length).match(/`+/g) ?? []).not.toContain(fence);
    expect(code).not.toContain("\n");
  });

  test("in a review: page and Markdown", () => {
    const page = pageOf(review(text), { script: "0", style: "" });
    const data = /<script type="application\/json" id="data">(.*?)<\/script>/s.exec(page)![1];
    expect(data).not.toMatch(/<|\u2028|\u2029/);
    expect(JSON.parse(data).recipes[0].title).toBe(text);
    const around = page.replace(data, "").replace(/<meta[^>]*>/g, "");
    expect(around.match(/<script/g)).toHaveLength(2);
    expect(around).not.toMatch(/<img|<b>|\sonmouseover="|\sonerror=[^&]*>[^&]/i);
    const output = markdownOf(review(text));
    expect(output).not.toMatch(/<script|<img|!\[|\]\(|https:\/\/|command:|www\./);
    expect(output).not.toMatch(CONTROL);
  });

  test("in XMP and EXIF", () => {
    const meta = { title: text, description: text, roll: text, camera: text, scans: [text], scanCamera: text };
    const xmp = xmpPacket(meta);
    const tags = [...xmp.matchAll(/<(\/?[a-zA-Z:]+)[ >]/g)].map(([, tag]) => tag);
    const plainTags = [
      ...xmpPacket({
        ...meta,
        title: "x",
        description: "x",
        roll: "x",
        camera: "x",
        scans: ["x"],
        scanCamera: "x",
      }).matchAll(/<(\/?[a-zA-Z:]+)[ >]/g),
    ];
    expect(tags).toEqual(plainTags.map(([, tag]) => tag));
    expect(xmp.replaceAll("\n", "")).not.toMatch(CONTROL);
    expect(JSON.stringify(exifFields(meta, "srgb"))).not.toMatch(/\\u00(0[1-9]|1|7f|8|9)/);
  });

  test("on a contact sheet", () => {
    const cells = [{ frame: "01", title: text, fault: text }];
    const svg = contactOverlay(text, text, cells, contactLayout(cells));
    expect(svg.match(/<(?!\/?(svg|g|text|path|rect|line)\b)/g) ?? []).toEqual([]);
    expect(svg).not.toMatch(/\son\w+="/);
    // XML 1.0 allows tabs and line ends, and no other control character.
    // eslint-disable-next-line no-control-regex
    expect(svg).not.toMatch(/[\u0000-\u0008\u000b\u000c\u000e-\u001f]/);
  });

  test("in a hover", async () => {
    const value = JSON.stringify(text);
    const recipe = `version: 1\nframes:\n  "01":\n    scan: a.dng\n    title: ${value}\n    note: ${value}\n`;
    const { reading, offset, workspace } = await open(recipe.replace('"01"', '|"01"'), {});
    const found = hover(reading, offset, workspace, english);
    expect(found?.contents).toContain("Frame");
    expect(found?.contents).not.toMatch(/!\[|\]\(|<script|<img|https:\/\/|command:/);
  });
});

function review(text: string): Review {
  const change = {
    id: "1",
    group: "look",
    frame: "01",
    name: text,
    kind: "changed",
    before: text,
    after: text,
    text,
    followers: [],
  } as const;
  return {
    before: { label: text, subject: text },
    after: { label: "the working tree" },
    rendered: false,
    recipes: [
      {
        file: "a.roll.yaml",
        title: text,
        kind: "roll",
        status: "changed",
        of: 1,
        changes: [change],
        frames: [{ id: "01", title: text, status: "changed", looksDifferent: true, notes: [text] }],
        impact: [{ file: "b.roll.yaml", title: text, frames: 1, of: 1 }],
        problems: [text],
      },
    ],
  } as unknown as Review;
}

test("plain text stays what it is", () => {
  const text = "Bärenbrücke, 14:30 — “first light” 日本";
  expect(plain(text)).toBe(text);
  expect(JSON.parse(plainJson({ text }))).toEqual({ text });
  expect(markdown("Pier 3, morning")).toBe("Pier 3, morning");
});

/** Every source of the program, without the tests. */
function sources(folder: string): string[] {
  return readdirSync(join(root, folder), { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".ts"))
    .map((name) => join(root, folder, name));
}

describe("the program's own text", () => {
  const all = [...sources("extension"), ...sources("webview")].map((file) => ({
    file,
    text: readFileSync(file, "utf8"),
  }));

  test("there is something to look at", () => expect(all.length).toBeGreaterThan(150));

  test("no shell is ever started", () => {
    for (const { file, text } of all) {
      expect([
        file,
        /\bexec(Sync)?\(|shell:\s*(true|["'])|createTerminal|sendText|ShellExecution/.exec(
          text.replaceAll(/\.exec\(/g, ""),
        ),
      ]).toEqual([file, null]);
      // These take a program and a list of words; a shell would take them apart again.
      for (const [, names = ""] of text.matchAll(/import \{([^}]*)\} from "node:child_process"/g))
        for (const name of names.split(","))
          expect([file, name.trim()]).toEqual([file, expect.stringMatching(/^(|type .*|fork|spawn|execFile)$/)]);
    }
  });

  test("nothing is evaluated and no markup is made from text in the panel", () => {
    for (const { file, text } of all)
      expect([
        file,
        /\beval\(|new Function\(|\.(inner|outer)HTML\s*=|insertAdjacentHTML|document\.write|setTimeout\(\s*["'`]/.exec(
          text,
        ),
      ]).toEqual([file, null]);
  });

  const pages = ["panels/panel-page", "copy-stand/page", "preview/page", "review/page", "survey/page"].map(
    (name) => `extension/editor/${name}.ts`,
  );

  const shellFile = "extension/work/files/html-page.ts";

  test("every panel's and every report's page comes from the one shell", () => {
    const policies = all.filter(({ text }) => /Content-Security-Policy/.test(text));
    expect(policies.map(({ file }) => file)).toEqual([expect.stringContaining(shellFile)]);
    const hosts = all.filter(({ text }) => /webview\.html = /.test(text));
    expect(hosts.length).toBeGreaterThan(2);
    // A folder that shows a panel has its page beside; the roll sheet shares the preview's.
    for (const { file } of hosts)
      expect(pages.map((page) => join(root, page))).toContain(file.replace(/[^/\\]+$/, "page.ts"));
    for (const page of pages.slice(1)) expect(readFileSync(join(root, page), "utf8")).toContain("panelPage(");
  });

  test("a panel's policy allows nothing by default, no evaluation, no inline script, no network", () => {
    const [shell, panel] = [shellFile, pages[0]].map((page) => readFileSync(join(root, page), "utf8"));
    expect(shell).toContain(`"default-src 'none'"`);
    expect(panel).toMatch(/script-src 'nonce-\$\{nonce\}'/);
    expect(panel).toContain("randomBytes(16)");
    expect(shell).toContain(`"base-uri 'none'"`);
    expect(shell).toContain(`"form-action 'none'"`);
    for (const page of [shellFile, ...pages]) {
      // What the page's own script hands to WebAssembly may be compiled; that lets in no text as script (CSP level 3, 4.4).
      const rest = readFileSync(join(root, page), "utf8").replaceAll("'wasm-unsafe-eval'", "");
      expect(rest).not.toMatch(/unsafe-|'self'|https?:|script-src[^"'`]*\*/);
    }
  });

  test("Markdown in the editor is never trusted to run commands", () => {
    for (const { file, text } of all)
      expect([file, /isTrusted\s*=\s*(true|\{)|supportHtml\s*=\s*true/.exec(text)]).toEqual([file, null]);
  });
});
