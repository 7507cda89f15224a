/** What a command owes a shell and a terminal: completion, help, man page, colours, quiet and dry runs, doctor, cache. */
import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Writable } from "node:stream";
import { stripVTControlCharacters } from "node:util";
import { afterAll, beforeAll, describe, expect, it, test } from "vitest";
import { makeRoll } from "../../bench/synthetic-roll.ts";
import { paintFor } from "../../../extension/cli/colours.ts";
import { lineOf, progressBar } from "../../../extension/cli/progress-bar.ts";
import { openTerminal } from "../../../extension/cli/terminal.ts";
import { asJson, fingerprints, rollbook } from "./command.ts";

let folder = "";
let roll = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "manners-"));
  roll = makeRoll(folder, "harbour", { width: 192, height: 128, frames: 2 });
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const has = (program: string): boolean => spawnSync(program, ["--version"]).error === undefined;

describe("completion", () => {
  const verbs = async (): Promise<string[]> =>
    [...(await rollbook(["--help"])).out.matchAll(/^ {2}([a-z-]+) {2,}/gm)].map(([, name]) => name);

  it.each(["bash", "zsh", "fish", "powershell"])("for %s knows every verb and its options", async (shell) => {
    const { code, out } = await rollbook(["completion", shell]);
    expect(code).toBe(0);
    for (const verb of await verbs()) expect(out).toMatch(new RegExp(`\\b${verb}\\b`));
    for (const option of ["dry-run", "write-spots", "film-data"]) expect(out).toContain(option);
    expect(out).not.toContain("merge-driver");
  });

  /** What bash proposes for a line whose last word is being typed. */
  async function proposed(...words: string[]): Promise<string[]> {
    const { out } = await rollbook(["completion", "bash"]);
    const list = words.map((word) => `'${word}'`).join(" ");
    const script = `${out}\nCOMP_WORDS=(rollbook ${list}); COMP_CWORD=${words.length}; _rollbook; echo "\${COMPREPLY[@]}"`;
    const ran = spawnSync("bash", ["--norc", "-c", script], { encoding: "utf8" });
    expect(ran.stderr).toBe("");
    return ran.stdout.trim().split(" ");
  }

  it.runIf(has("bash"))("proposes in bash what fits", async () => {
    expect(await proposed("ren")).toEqual(["render"]);
    expect(await proposed("render", "--o")).toEqual(["--out", "--output", "--overwrite"]);
    expect(await proposed("help", "cal")).toEqual(["calibrate"]);
    expect(await proposed("render", "har")).toEqual([""]); // files are the shell's own business
  });

  it.runIf(has("zsh"))("is read by zsh", async () => {
    const { out } = await rollbook(["completion", "zsh"]);
    const ran = spawnSync(
      "zsh",
      ["-f", "-c", `autoload -U compinit; compinit -D -u; ${out}\nprint $_comps[rollbook]`],
      {
        encoding: "utf8",
        env: { ...process.env, HOME: folder },
      },
    );
    expect([ran.stdout, ran.stderr]).toEqual(["_rollbook\n", ""]);
  });

  it.runIf(has("fish"))("is read by fish, which proposes what fits", async () => {
    const { out } = await rollbook(["completion", "fish"]);
    const ask = (line: string): string[] =>
      spawnSync("fish", ["--no-config", "-c", `${out}\ncomplete -C '${line}'`], {
        encoding: "utf8",
        env: { ...process.env, HOME: folder },
      })
        .stdout.split("\n")
        .map((row) => row.split("\t")[0]);
    expect(ask("rollbook ren")).toContain("render");
    expect(ask("rollbook render --over")).toContain("--overwrite");
  });

  it("for PowerShell keeps to its rules of quotes and brackets", async () => {
    // about_Quoting_Rules and about_Hash_Tables of PowerShell's documentation: in single quotes nothing but '' is special.
    const { out } = await rollbook(["completion", "powershell"]);
    const code = out.replaceAll(/^ *#.*$/gm, "");
    const strings = code.match(/'(?:[^'\n]|'')*'/g) ?? [];
    const rest = code.replaceAll(/'(?:[^'\n]|'')*'/g, "S").replaceAll(/"[^"\n]*"/g, "S");
    expect(rest).not.toMatch(/['"`]/);
    let brackets = rest.replaceAll(/[^()[\]{}]/g, "");
    for (let before = ""; before !== brackets;) {
      before = brackets;
      brackets = brackets.replaceAll(/\(\)|\[\]|\{\}/g, "");
    }
    expect(brackets).toBe("");
    expect(strings).toContain("'write a roll''s pictures'");
    for (const name of [...(await verbs()), "help"]) expect(code).toMatch(new RegExp(`^ {4}'${name}' = 'S?`, "m"));
  });

  it("refuses a shell that it does not know", async () => {
    const { code, err } = await rollbook(["completion", "csh"]);
    expect([code, err]).toEqual([2, expect.stringContaining("Shells are bash, zsh, fish, powershell") as string]);
  });
});

describe("help and man page", () => {
  it("help VERB is what VERB --help prints; an unknown verb is named", async () => {
    const [one, other] = [await rollbook(["help", "render"]), await rollbook(["render", "--help"])];
    expect(one).toEqual(other);
    const wrong = await rollbook(["help", "rendr"]);
    expect([wrong.code, wrong.err]).toEqual([2, expect.stringContaining('Did you mean "render"?') as string]);
  });

  it("man has a section for every verb and every option", async () => {
    const { out } = await rollbook(["man"]);
    expect(out).toMatch(/^\.TH ROLLBOOK 1 /);
    expect(out).toContain(".SS git\\-setup");
    expect(out).toContain("\\fB\\-o, \\-\\-out\\fR \\fIFOLDER\\fR");
    if (!has("groff")) return;
    const set = spawnSync("groff", ["-man", "-Tutf8", "-ww", "-P-c"], { input: out, encoding: "utf8" });
    expect([set.status, set.stderr]).toEqual([0, ""]);
    expect(set.stdout.replaceAll(/\s+/g, " ")).toContain("Writes every frame in every form");
  });
});

describe("a terminal", () => {
  /** A stream that says it is a terminal, and keeps what it gets. */
  function screen(): Writable & { isTTY: boolean; columns: number; text: string } {
    const stream = new Writable({
      write(chunk: Buffer, _encoding, done) {
        made.text += chunk.toString();
        done();
      },
    });
    const made = Object.assign(stream, { isTTY: true, columns: 80, text: "" });
    return made;
  }
  const line = "a.roll.yaml:3:5 error There is no scan. [missing-scan]";

  test("colours severities, and nothing with NO_COLOR, on a dumb terminal or into a file", () => {
    const coloured = paintFor(true, {})(line);
    expect(coloured).toContain("\u001b[31merror\u001b[39m There is no scan.\u001b[2m [missing-scan]\u001b[22m");
    const finding = "warning frame 01: Too dark. [under-exposed] Expose longer.";
    expect(paintFor(true, {})(finding)).toBe(
      "\u001b[33mwarning\u001b[39m frame 01: Too dark.\u001b[2m [under-exposed]\u001b[22m Expose longer.",
    );
    expect(stripVTControlCharacters(coloured)).toBe(line);
    for (const [terminal, environment] of [
      [true, { NO_COLOR: "1" }],
      [true, { NO_COLOR: "1", FORCE_COLOR: "1" }],
      [true, { TERM: "dumb" }],
      [false, {}],
      [false, { FORCE_COLOR: "0" }],
    ] as const)
      expect(paintFor(terminal, environment)(line)).toBe(line);
    expect(paintFor(false, { FORCE_COLOR: "1" })(line)).not.toBe(line);
    expect(paintFor(true, {})("No findings.")).toBe("No findings.");
  });

  test("gets a bar with rate and time left, which goes before a line is printed", () => {
    expect(lineOf(1, 36, 5000, "frame 01")).toBe("  3 %  frame 01");
    expect(lineOf(12, 36, 24_000, "frame 12")).toBe(" 33 %  frame 12  2.0 s each  0:48 left");
    expect(lineOf(900, 3600, 100_000, "scan")).toBe(" 25 %  scan  9.0/s  5:00 left");
    const err = screen();
    let clock = 0;
    const bar = progressBar(err, () => clock);
    bar.show(0, 4, "frame 01");
    clock = 4000;
    bar.show(2, 4, "frame 03");
    bar.clear();
    expect(err.text).toContain("░");
    expect(err.text).not.toContain("\u001b[?"); // no mode of the terminal is changed
    const out = screen();
    const terminal = openTerminal({ out, err }, { environment: {} });
    terminal.progress(1, 2, "frame \u001b[2J01");
    terminal.print("done");
    expect(err.text).not.toContain("\u001b[2J");
    expect(out.text).toBe("done\n");
  });

  test("with quiet, gets problems alone", () => {
    const [out, err] = [screen(), screen()];
    const terminal = openTerminal({ out, err }, { quiet: true, environment: { NO_COLOR: "1" } });
    terminal.progress(1, 2, "frame 01");
    terminal.print("36 pictures written.");
    terminal.report(line);
    terminal.printError("frame 02 was skipped.");
    expect([out.text, err.text]).toEqual([`${line}\n`, "frame 02 was skipped.\n"]);
  });
});

describe("--quiet and --dry-run", () => {
  it("render says nothing with --quiet", async () => {
    const ran = await rollbook(["render", roll, "-o", join(folder, "quiet"), "--quiet"]);
    expect(ran).toEqual({ code: 0, out: "", err: "" });
    expect(readdirSync(join(folder, "quiet")).length).toBeGreaterThan(0);
  });

  it("a dry run names what would be written and writes nothing", { timeout: 180_000 }, async () => {
    const before = fingerprints(folder);
    const rendered = await rollbook(["render", roll, "-o", join(folder, "dry"), "--dry-run"]);
    expect(rendered.code).toBe(0);
    expect(rendered.out).toMatch(/^Would write \w+\/harbour-01\.\w+\.$/m);
    expect(rendered.out).toContain("nothing was written");
    expect(existsSync(join(folder, "dry"))).toBe(false);
    const again = await rollbook(["render", roll, "-o", join(folder, "quiet"), "--dry-run"]);
    expect(again.out).toMatch(/^Would replace /m);
    const stock = await rollbook(["stock", roll, "-o", join(folder, "own.stock.yaml"), "--dry-run"]);
    expect(stock.out).toMatch(/^Would write .*own\.stock\.yaml \(\d+ bytes\)\.$/m);
    const locked = await rollbook(["lock", roll, "--dry-run"]);
    expect([locked.code, locked.err]).toEqual([0, ""]);
    expect(locked.out).toMatch(/^Would change .*harbour\.roll\.yaml:$[^]*^\+ fingerprints:$/m);
    const sheet = await rollbook(["contact", roll, "-o", join(folder, "sheet.jpg"), "--dry-run"]);
    expect(sheet.out).toMatch(/^Would write .*sheet\.jpg with 2 frames\.$/m);
    writeFileSync(join(folder, "loose.roll.yaml"), "scans: s\nversion: 1\n");
    const loose = await rollbook(["format", join(folder, "loose.roll.yaml"), "--dry-run"]);
    expect(loose.out).toMatch(/^Would change .*loose\.roll\.yaml:\n- scans: s\n/);
    rmSync(join(folder, "loose.roll.yaml"));
    expect(fingerprints(folder)).toEqual(before);
  });
});

describe("doctor and cache", () => {
  it("doctor names versions, cores, decoders, codecs, cache and limits", async () => {
    const { code, json, err } = await asJson<Record<string, unknown>>(["doctor"]);
    expect([code, err, json.ok]).toEqual([0, "", true]);
    for (const name of ["rollbook", "node", "system", "processor", "memory", "git", "images", "raw decoder", "cache"])
      expect([name, json[name]]).toEqual([name, expect.stringMatching(/./)]);
    expect(json.node).toBe(process.version);
    expect(json.images).toMatch(/build, sharp \d+\.\d+\.\d+, vips \d/);
    expect(json["largest scan"]).toMatch(/megapixels/);
  });

  it("cache lists its entries, and --clear removes them and nothing else", async () => {
    const home = join(folder, "cache-home");
    const room = join(home, "rollbook/copy-stand");
    mkdirSync(room, { recursive: true });
    writeFileSync(join(room, "a.cache"), "1234");
    writeFileSync(join(room, "notes.txt"), "mine");
    const before = process.env.XDG_CACHE_HOME;
    process.env.XDG_CACHE_HOME = home;
    try {
      const listed = await asJson<{ bytes: number; entries: object[] }>(["cache"]);
      expect(listed.json).toMatchObject({ bytes: 4, entries: [{ bytes: 4 }] });
      expect((await rollbook(["cache", "--clear", "--dry-run"])).out).toContain("Would remove 1 entries.");
      expect(readdirSync(room)).toEqual(["a.cache", "notes.txt"]);
      expect((await rollbook(["cache", "--clear"])).out).toContain("1 entries removed.");
      expect(readFileSync(join(room, "notes.txt"), "utf8")).toBe("mine");
      expect(readdirSync(room)).toEqual(["notes.txt"]);
    } finally {
      if (before === undefined) delete process.env.XDG_CACHE_HOME;
      else process.env.XDG_CACHE_HOME = before;
    }
  });
});
