/** The `rollbook` command: finds the verb, reads its arguments, runs it, and turns what happens into an exit code. */
import { nearest } from "../recipe/problems/near.ts";
import { SelectionError } from "../work/frame/select-frames.ts";
import { sentence } from "../work/pool/job-error.ts";
import { VERSION } from "../work/files/version.ts";
import { helpOf, readArguments } from "./arguments.ts";
import { base } from "./base.ts";
import { calibrate } from "./calibrate/index.ts";
import { check } from "./check.ts";
import { contact } from "./contact.ts";
import { films } from "./films.ts";
import { format } from "./format.ts";
import { gitSetup } from "./git-setup.ts";
import { join } from "./join.ts";
import { lock } from "./lock.ts";
import { mergeDriver } from "./merge-driver.ts";
import { newRoll } from "./new.ts";
import { render } from "./render.ts";
import { review } from "./review.ts";
import { stock } from "./stock.ts";
import { survey } from "./survey.ts";
import { openTerminal } from "./terminal.ts";
import { textconv } from "./textconv.ts";
import { EXIT, UsageError, type Verb } from "./verb.ts";

const verbs: readonly Verb[] = [
  newRoll,
  films,
  check,
  format,
  base,
  survey,
  render,
  contact,
  join,
  lock,
  review,
  gitSetup,
  textconv,
  mergeDriver,
  calibrate,
  stock,
];

const overview = (): string => {
  const shown = verbs.filter((verb) => !verb.internal);
  const width = Math.max(...shown.map((verb) => verb.name.length));
  return [
    "rollbook VERB …: turns camera scans of film into finished pictures, from recipes in plain text.",
    "",
    ...shown.map((verb) => `  ${verb.name.padEnd(width)}  ${verb.summary}`),
    "",
    '"rollbook VERB --help" tells more. Exit codes: 0 good, 1 problems found, 2 could not run, 130 interrupted.',
    "",
    "Example: rollbook render harbour.roll.yaml -o pictures",
  ].join("\n");
};

async function main(args: readonly string[]): Promise<number> {
  const [name, ...rest] = args;
  const streams = { out: process.stdout, err: process.stderr };
  // Known before the arguments are read, so that a wrong call is told as JSON too.
  const terminal = openTerminal(streams, args.includes("--json"));
  if (name === "--version") {
    process.stdout.write(`${VERSION}\n`);
    return EXIT.good;
  }
  if (name === undefined || name === "--help" || name === "-h" || name === "help") {
    process.stdout.write(`${overview()}\n`);
    return name === undefined ? EXIT.failed : EXIT.good;
  }

  const stop = new AbortController();
  const interrupt = (): void => {
    // Asked twice: whoever waits has waited long enough. Files are whole or absent even so.
    if (stop.signal.aborted) process.exit(EXIT.interrupted);
    stop.abort();
  };
  process.on("SIGINT", interrupt);
  process.on("SIGTERM", interrupt);
  try {
    const verb = verbs.find((v) => v.name === name);
    if (!verb) {
      const names = verbs.filter((v) => !v.internal).map((v) => v.name);
      const meant = nearest(name, names);
      throw new UsageError(
        `There is no verb "${name}". ${meant ? `Did you mean "${meant}"?` : `There are ${names.join(", ")}.`}`,
      );
    }
    const { options, files } = readArguments(verb, rest);
    if (options.help) {
      process.stdout.write(`${helpOf(verb)}\n`);
      return EXIT.good;
    }
    return await verb.run({ options, files, terminal, signal: stop.signal });
  } catch (error) {
    if (stop.signal.aborted) return EXIT.interrupted;
    const expected =
      error instanceof UsageError || error instanceof SelectionError || (error as { code?: unknown }).code;
    terminal.complain(expected ? sentence(error) : `rollbook broke down: ${(error as Error).stack ?? String(error)}`);
    terminal.result({ ok: false, error: { message: sentence(error) } });
    return EXIT.failed;
  }
}

process.exitCode = await main(process.argv.slice(2));
