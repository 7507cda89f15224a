// Keeps CHANGELOG.md in step with the version (Keep a Changelog 1.1.0).
// Usage: node .ci/changelog.mjs [--releasable | --release VERSION [--date YYYY-MM-DD]] [--file FILE]
//   without --release    fails where headings, dates or the order of versions are wrong
//   --releasable         fails as well where nothing stands under Unreleased: before `npm version` changes anything
//   --release VERSION    fails where nothing stands under Unreleased; else gives it the version's heading.
//                        `npm version` calls it, so that the commit it tags has the section
import { readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";

const { values: options } = parseArgs({
  options: {
    releasable: { type: "boolean" },
    release: { type: "string" },
    date: { type: "string" },
    file: { type: "string" },
  },
});
const file = options.file ?? join(dirname(dirname(fileURLToPath(import.meta.url))), "CHANGELOG.md");
const text = readFileSync(file, "utf8");
const KINDS = ["Added", "Changed", "Deprecated", "Removed", "Fixed", "Security"];

const sections = text.split(/^## /m).slice(1);
const problems = [];
const headings = sections.map((section) => section.slice(0, section.indexOf("\n")));
if (headings[0] !== "[Unreleased]") problems.push("The first section must be [Unreleased].");
const versions = headings.slice(1).map((heading) => {
  const found = /^\[(\d+)\.(\d+)\.(\d+)\] - \d{4}-\d{2}-\d{2}$/.exec(heading);
  if (!found) problems.push(`"${heading}" must have the form [1.2.3] - 2026-12-31.`);
  return found?.slice(1, 4).map(Number) ?? [0, 0, 0];
});
for (const [i, version] of versions.entries())
  if (i > 0 && compare(versions[i - 1], version) <= 0)
    problems.push(`${versions[i - 1].join(".")} stands above ${version.join(".")}: the newest comes first.`);
for (const section of sections)
  for (const [, kind] of section.matchAll(/^### (.*)$/gm))
    if (!KINDS.includes(kind)) problems.push(`"${kind}" is none of ${KINDS.join(", ")}.`);

if (options.release !== undefined) {
  const { release } = options;
  const wanted = release.split(".").map(Number);
  if (wanted.length !== 3 || wanted.some((part) => !Number.isInteger(part)))
    problems.push(`"${release}" is no version such as 1.2.3.`);
  else if (versions.length > 0 && compare(wanted, versions[0]) <= 0)
    problems.push(`${release} is not above ${versions[0].join(".")}, the last release.`);
}
if ((options.releasable || options.release !== undefined) && !/^[-*] /m.test(sections[0] ?? ""))
  problems.push("Nothing stands under [Unreleased]: write what has changed.");
for (const problem of problems) console.error(`CHANGELOG.md: ${problem}`);
if (problems.length > 0) process.exit(1);
if (options.release !== undefined) {
  const date = options.date ?? new Date().toISOString().slice(0, 10);
  writeFileSync(file, text.replace("## [Unreleased]\n", `## [Unreleased]\n\n## [${options.release}] - ${date}\n`));
}

function compare(a, b) {
  const at = a.findIndex((part, i) => part !== b[i]);
  return at < 0 ? 0 : a[at] - b[at];
}
