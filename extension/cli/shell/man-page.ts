/** The manual page rollbook(1), made from the table of verbs. Its language is man(7)'s macros, in ASCII. */
import { COMMON, usageOf } from "../arguments.ts";
import { VERSION } from "../../work/files/version.ts";
import { EXIT, type OptionSpec, type Verb } from "../verb.ts";

export const man = (table: () => readonly Verb[]): Verb => ({
  name: "man",
  summary: "print the manual page",
  usage: "",
  details:
    "Prints the manual page rollbook(1), made from the verbs of this version. A global npm installation has it where\n" +
    '"man rollbook" finds it; anywhere else: rollbook man | man -l -',
  example: "rollbook man > rollbook.1",
  options: {},
  files: [0, 0],
  run({ terminal }) {
    const page = manPage(table());
    terminal.bytes(Buffer.from(page));
    terminal.result({ ok: true, page });
    return Promise.resolve(EXIT.good);
  },
});

export function manPage(verbs: readonly Verb[]): string {
  return [
    `.TH ROLLBOOK 1 "" "Rollbook ${VERSION}" "User Commands"`,
    ".SH NAME",
    "rollbook \\- finished positives from camera scans of film negatives",
    ".SH SYNOPSIS",
    ".B rollbook",
    ".I verb",
    "[\\fIoptions\\fR] [\\fIfile\\fR ...]",
    ".SH DESCRIPTION",
    "Turns camera scans of film into finished pictures, from recipes in plain text.",
    ".SH VERBS",
    ...verbs.filter((verb) => !verb.internal).flatMap(verbSection),
    ".SH OPTIONS OF EVERY VERB",
    ...Object.entries<OptionSpec>(COMMON).flatMap(optionLines),
    ".SH EXIT STATUS",
    ...[
      [EXIT.good, "good"],
      [EXIT.problems, "problems were found"],
      [EXIT.failed, "the command could not run"],
      [EXIT.interrupted, "interrupted"],
    ].flatMap(([code, meaning]) => [".TP", `.B ${code}`, String(meaning)]),
    ".SH ENVIRONMENT",
    ...ENVIRONMENT.flatMap(([name, meaning]) => [".TP", `.B ${name}`, roff(meaning)]),
    "",
  ].join("\n");
}

const ENVIRONMENT = [
  ["NO_COLOR", "Where set to anything, nothing is coloured."],
  ["ROLLBOOK_CODEC", "wasm or native: which build of the image library is used."],
  ["ROLLBOOK_MEGAPIXELS", "The largest scan that is decoded, in megapixels; 200 where not set."],
  ["XDG_CACHE_HOME", "The folder that the cache lies in."],
] as const;

function verbSection(verb: Verb): string[] {
  return [
    `.SS ${roff(verb.name)}`,
    `.B ${roff(usageOf(verb).trimEnd())}`,
    ".PP",
    ...verb.details.split("\n").flatMap((line) => (line.startsWith("  ") ? [".br", roff(line.trim())] : [roff(line)])),
    ...Object.entries<OptionSpec>(verb.options).flatMap(optionLines),
    ".PP",
    "Example:",
    ".B",
    roff(verb.example),
  ];
}

function optionLines([name, { short, value, help }]: [string, OptionSpec]): string[] {
  const head = `${short ? `-${short}, ` : ""}--${name}`;
  return [".TP", `\\fB${roff(head)}\\fR${value ? ` \\fI${roff(value)}\\fR` : ""}`, roff(help)];
}

/** Text that no macro or escape begins in; hyphens stay those that are typed. */
const roff = (text: string): string =>
  text
    .replaceAll("\\", "\\e")
    .replaceAll("-", "\\-")
    .replaceAll(/^([.'])/gm, "\\&$1")
    .replaceAll(
      /[^\u0020-\u007e\n]/gu,
      (sign) => `\\[u${sign.codePointAt(0)!.toString(16).toUpperCase().padStart(4, "0")}]`,
    );
