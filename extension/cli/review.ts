/** `rollbook review`: what changed in git, as text, Markdown, JSON or one HTML page. */
import { realpathSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { basename, dirname, join, relative, resolve, sep } from "node:path";
import { impactOf, type Review } from "../review-report.ts";
import { HTML_ENDINGS, MARKDOWN_ENDINGS, openOutput, type OutputFile, sealed } from "../work/files/output-file.ts";
import { type History, readHistory } from "../work/review/history.ts";
import { markdownOf } from "../work/review/markdown.ts";
import { pageOf } from "../work/review/page.ts";
import { makeReview } from "../work/review/review.ts";
import { textOf } from "../work/review/text.ts";
import { openWorkspace } from "../work/files/workspace.ts";
import { DRY_RUN_OPTION, writeOutput } from "./dry-run.ts";
import { PROGRAMS, withPool } from "./programs.ts";
import { type Call, EXIT, flag, text, UsageError, type Verb, whole } from "./verb.ts";

export const review: Verb = {
  name: "review",
  summary: "report what changed in git, as text and as pictures",
  usage: "[REV | REV..REV | REV...REV] [RECIPE…] [--html FILE] [--markdown FILE]",
  details:
    "Compares recipes as two revisions have them, value by value, and draws the frames that look different. Without a\n" +
    "revision it compares the last commit with the working tree; A with the working tree; A..B, or A...B for what B\n" +
    "changed since it left A; A^! is what one commit changed. Scans are read from the working tree; git's index and the\n" +
    "working tree are left alone. A change of a stock is followed to every roll that uses it.\n" +
    "Exit code 1 when a recipe has errors, and when what --fail-on-change or --fail-above asks for happened.",
  example: "rollbook review main...HEAD --html review.html",
  options: {
    html: { value: "FILE", help: "write a page with pictures that needs no other file" },
    markdown: { value: "FILE", help: "write a summary for a pull request; - for standard output" },
    overwrite: { help: "let --html and --markdown replace files that rollbook did not write" },
    ...DRY_RUN_OPTION,
    words: { help: "leave out the pictures and their differences" },
    size: { value: "PIXELS", help: "longest side of the pictures (default: 1000)" },
    "fail-on-change": { help: "exit code 1 when any picture may look different" },
    "fail-above": { value: "DE", help: "exit code 1 when a frame's ΔE00 at the 95th percentile is above this" },
    workers: { value: "N", help: "worker threads (default: one per processor core, at most 8)" },
  },
  files: [0, Infinity],
  async run(call) {
    const { terminal, signal } = call;
    const { range, recipes } = sortArguments(call.files);
    const long = flag(call, "words") ? 0 : (whole(call, "size", 64, 4000) ?? 1000);
    const limit = limitOf(call);
    const workers = whole(call, "workers", 1, 64);
    const html = output(call, "html", HTML_ENDINGS);
    const toTerminal = text(call, "markdown") === "-";
    const markdown = toTerminal ? undefined : output(call, "markdown", MARKDOWN_ENDINGS);
    const folder = recipes[0] ? dirname(resolve(recipes[0])) : process.cwd();
    const history = await readHistory({ folder, range }, signal);
    const only = recipes.length > 0 ? recipes.map((file) => insideOf(history, file)) : undefined;

    const made = await withPool(workers, (pool) =>
      makeReview(
        history,
        openWorkspace(history.root),
        pool,
        { only, long },
        {
          signal,
          onProgress: (done, total, frame) => terminal.progress(done, total, `frame ${frame}`),
        },
      ),
    );
    terminal.clear();
    const found = made.review;
    if (html) await writeOutput(call, html, text(call, "html")!, sealed(pageOf(found, await pageParts())));
    if (markdown) await writeOutput(call, markdown, text(call, "markdown")!, sealed(markdownOf(found)));
    const lines = toTerminal ? markdownOf(found).trimEnd().split("\n") : textOf(found);
    for (const line of lines) terminal.print(line);
    const failures = failuresOf(call, found, limit);
    for (const failure of failures) terminal.printError(failure);
    terminal.result({ ok: failures.length === 0, ...withoutBytes(found), failures });
    return failures.length > 0 ? EXIT.problems : EXIT.good;
  },
};

/** Recipes end in .yaml; what does not is a revision, and there is one of them at most. */
function sortArguments(files: readonly string[]): { range: string; recipes: string[] } {
  const recipes = files.filter((file) => /\.ya?ml$/i.test(file));
  const ranges = files.filter((file) => !/\.ya?ml$/i.test(file));
  if (ranges.length > 1)
    throw new UsageError(`Name one range of revisions, such as ${ranges[0]}..${ranges[1]}; recipes end in .yaml.`);
  return { range: ranges[0] ?? "", recipes };
}

/** The recipe's path from the repository's root; it need not exist any more. */
function insideOf({ root, snapshots }: History, file: string): string {
  const full = resolve(file);
  const real = (path: string): string => {
    try {
      return realpathSync(path);
    } catch {
      return path;
    }
  };
  const path = relative(real(root), join(real(dirname(full)), basename(full)))
    .split(sep)
    .join("/");
  if (snapshots.before.recipes.has(path) || snapshots.after.recipes.has(path)) return path;
  throw new UsageError(`Neither of the two revisions has a recipe ${file}.`);
}

function output(call: Call, option: string, endings: readonly string[]): OutputFile | undefined {
  const file = text(call, option);
  return file === undefined ? undefined : openOutput({ file, endings, overwrite: flag(call, "overwrite") });
}

function limitOf(call: Call): number | undefined {
  const wanted = text(call, "fail-above");
  if (wanted === undefined) return undefined;
  const limit = wanted.trim() === "" ? NaN : Number(wanted);
  if (!Number.isFinite(limit) || limit < 0)
    throw new UsageError(`--fail-above takes a ΔE00 such as 1.5, not "${wanted}".`);
  if (flag(call, "words")) throw new UsageError("--fail-above needs the pictures; leave out --words.");
  return limit;
}

/** Why the command ends with 1, one sentence each. */
function failuresOf(call: Call, { recipes }: Review, limit: number | undefined): string[] {
  const failures = recipes.flatMap((recipe) => recipe.problems);
  for (const { file, frames } of recipes)
    for (const frame of frames.filter(({ looksDifferent }) => looksDifferent)) {
      const impact = impactOf(frame);
      const asMeasured = Number.isFinite(impact) ? `by ΔE00 ${impact.toFixed(2)} at the 95th percentile` : "";
      if (limit !== undefined && impact > limit)
        failures.push(
          `${file}: frame ${frame.id} ${asMeasured ? `differs ${asMeasured}` : "could not be measured"}, which is above ${limit}.`,
        );
      else if (flag(call, "fail-on-change")) failures.push(`${file}: frame ${frame.id} looks different.`);
    }
  return failures;
}

async function pageParts(): Promise<{ script: string; style: string }> {
  const [script, style] = await Promise.all(
    ["review.js", "review.css"].map((name) => readFile(join(PROGRAMS, name), "utf8")),
  );
  return {
    script: script!.replace(/\n\/\/# sourceMappingURL=.*\s*$/, ""),
    style: style!.replace(/\/\*# sourceMappingURL=.*?\*\/\s*$/, ""),
  };
}

/** The review without the pictures' bytes. */
const withoutBytes = (found: Review): object =>
  JSON.parse(
    JSON.stringify(found, (_key, value: unknown) => (value instanceof Uint8Array ? undefined : value)),
  ) as object;
