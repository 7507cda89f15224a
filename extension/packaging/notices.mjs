// Writes and checks docs/third-party-notices.md: who made what is shipped, and under which terms.
import { existsSync, readFileSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { innerParts, missingTexts } from "./inner-parts.mjs";

const FILE = "docs/third-party-notices.md";

/** Licences whose text is in docs/licences/ rather than repeated for each package: they name no copyright holder. */
const WHOLE_TEXTS = { "Apache-2.0": "Apache-2.0.txt", "LGPL-3.0-or-later": "LGPL-3.0.txt" };

/** Writes the file again from what is shipped. */
export function writeNotices(from, shipped) {
  writeFileSync(join(from, FILE), makeNotices(from, shipped));
}

/** @throws Error when the file does not name exactly what is shipped */
export function checkNotices(from, shipped) {
  const file = join(from, FILE);
  if (existsSync(file) && readFileSync(file, "utf8") === makeNotices(from, shipped)) return;
  throw new Error(
    `${FILE} does not fit the packages that are shipped. Run: node extension/package.mjs --write-notices`,
  );
}

/** @param {import("./shipped.mjs").ShippedPackage[]} shipped */
function makeNotices(from, shipped) {
  const packages = [...shipped, validatorOf(from)].map((p) => ({ ...p, name: anyPlatform(p.name) }));
  packages.sort((a, b) => (a.name < b.name ? -1 : 1));
  const row = (...cells) => `| ${cells.join(" | ")} |`;
  return [
    "# Third-party notices",
    "",
    "Rollbook itself is under the MIT licence. What it ships of others is listed here with its terms.",
    "This page is made by `node extension/package.mjs --write-notices`; packing fails when it is out of date.",
    "Long licence texts are in the folder `licences`, here in `docs/licences`.",
    "",
    "## Packages",
    "",
    row("package", "version", "licence"),
    row("---", "---", "---"),
    ...packages.map((p) => row(p.name, p.version, p.licence)),
    "",
    "`PLATFORM` stands for the platform of a VSIX, such as linux-x64; `CPU` for the processor. The universal VSIX has none",
    "of those packages.",
    "",
    ...innerParts.flatMap((part) => [`## ${part.title}`, "", ...part.text, ""]),
    ...librariesOf(shipped),
    "## Licence texts",
    "",
    `Of the licences that the tables of libraries name: ${readdirSync(join(from, "docs/licences"))
      .map((file) => `licences/${file}`)
      .join(", ")}.`,
    "The LGPL 3.0 adds to the GPL 3.0. The MIT licence is the one printed above for Little CMS.",
    "",
    ...packages.flatMap((p) => [`### ${p.name}`, "", ...textOf(p), ""]),
  ].join("\n");
}

/** The validators made from the schemas have parts of ajv's run time written into them. */
function validatorOf(from) {
  const folder = [join(from, "node_modules/ajv"), join(import.meta.dirname, "../../node_modules/ajv")].find((f) =>
    existsSync(f),
  );
  const { name, version, license } = JSON.parse(readFileSync(join(folder, "package.json"), "utf8"));
  return { name, version, licence: license, folder };
}

/** @img/sharp-linux-x64 and its like are one entry; on Windows the package is another kind, with libvips in it. */
function anyPlatform(name) {
  return name
    .replace(/^@img\/sharp-(libvips-)?(linux|linuxmusl|darwin)-\w+$/, "@img/sharp-$1PLATFORM")
    .replace(/-win32-\w+$/, "-win32-CPU");
}

/** The image libraries inside sharp's binaries, from the table that comes with each of them. */
function librariesOf(shipped) {
  const binaries = shipped.filter(
    ({ name, folder }) => name.startsWith("@img/sharp-") && existsSync(join(folder, "versions.json")),
  );
  return binaries.flatMap(({ name, folder }) => {
    const table = readFileSync(join(folder, "README.md"), "utf8")
      .split("\n")
      .filter((line) => line.startsWith("|"));
    if (table.length < 3) throw new Error(`The README of ${name} has no table of libraries and licences any more.`);
    const versions = Object.entries(JSON.parse(readFileSync(join(folder, "versions.json"), "utf8")));
    return [
      `## Libraries inside ${anyPlatform(name)}`,
      "",
      name.endsWith("wasm32")
        ? "One WebAssembly file holds sharp, libvips and the others; a build of one's own can take the package's place."
        : "libvips is a shared library that sharp loads at run time; a build of one's own can take its place.",
      "Sources: https://github.com/libvips/libvips; build scripts: https://github.com/lovell/sharp-libvips.",
      "",
      ...table.map((line) => line.replace(/ {2,}/g, " ").replace(/-{4,}/g, "---")),
      "",
      `Versions: ${versions.map(([library, version]) => `${library} ${version}`).join(", ")}.`,
      "",
      "This software is based in part on the work of the Independent JPEG Group and of the FreeType Project.",
      "",
    ];
  });
}

function textOf({ name, licence, folder }) {
  const wholes = licence.split(" AND ").flatMap((id) => WHOLE_TEXTS[id] ?? []);
  const lines = wholes.length ? [`Under ${licence}: ${wholes.map((file) => `licences/${file}`).join(", ")}`] : [];
  const files = readdirSync(folder).filter((file) => /^(licen[cs]e|notices?|copyright)/i.test(file));
  const texts = files.map((file) => readFileSync(join(folder, file), "utf8"));
  if (!files.length && !wholes.length) {
    const known = missingTexts.find((entry) => entry.packages.test(name));
    if (!known)
      throw new Error(`The package ${name} ships no licence text. Add it to extension/packaging/inner-parts.mjs.`);
    texts.push(known.text);
  }
  // A file that only repeats the Apache licence is not printed again.
  for (const text of texts.filter((t) => !wholes.length || !/Apache License\s+Version 2\.0/.test(t)))
    lines.push(
      "```text",
      ...text
        .replaceAll("\r", "")
        .trim()
        .split("\n")
        .map((line) => line.trimEnd()),
      "```",
    );
  return lines;
}
