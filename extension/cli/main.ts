/** The `rollbook` command: finds the verb, reads its arguments, runs it, and turns what happens into an exit code. */
import { errorText } from "../scans/files/system-errors.ts";
import { nearest } from "../recipe/problems/nearest.ts";
import { SelectionError } from "../work/frame/select-frames.ts";
import { removeUnfinished } from "../scans/files/atomic.ts";
import { explainSystem, reasonOf } from "../scans/files/system-errors.ts";
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
import { isPoolOpen } from "./programs.ts";
import { render } from "./render.ts";
import { review } from "./review.ts";
import { stock } from "./stock.ts";
import { survey } from "./survey.ts";
import { openTerminal } from "./terminal.ts";
import { textconv } from "./textconv.ts";
import { watch } from "./watch.ts";
import { EXIT, UsageError, type Verb } from "./verb.ts";

const verbs: readonly Verb[] = [
  watch,
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

const helpText = (): string => {
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

/** Milliseconds that work in a pool has to stop: a worker gets 2500 to finish a file that it is writing. */
const GRACE = 4000;

/** Files are whole or absent however the program ends. */
function endOnSignals(stop: AbortController): void {
  const interrupt = (): void => {
    // Without a pool there is nothing to wait for; and whoever asks twice has waited long enough.
    if (stop.signal.aborted || !isPoolOpen()) process.exit(EXIT.interrupted);
    stop.abort();
    setTimeout(() => process.exit(EXIT.interrupted), GRACE).unref();
  };
  for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"] as const) process.on(signal, interrupt);
  process.on("exit", removeUnfinished);
}

/** What a verb prints is part of its work: whoever reads it must not take half of it for the whole. */
function endOnClosedOutput(): void {
  process.stderr.on("error", () => {}); // nobody is left to be told
  process.stdout.on("error", (error: NodeJS.ErrnoException) => {
    const [why, remedy] =
      error.code === "EPIPE"
        ? ["was closed before everything was written", "Let its reader read to the end, or write into a file."]
        : reasonOf(error, "write");
    process.stderr.write(`Standard output ${why}. ${remedy}\n`);
    process.exit(EXIT.failed);
  });
}

async function main(args: readonly string[]): Promise<number> {
  const [name, ...rest] = args;
  const streams = { out: process.stdout, err: process.stderr };
  // Known before the arguments are read, so that a wrong call is told as JSON too.
  const terminal = openTerminal(streams, args.includes("--json"));
  const stop = new AbortController();
  endOnSignals(stop);
  endOnClosedOutput();
  if (name === "--version") {
    process.stdout.write(`${VERSION}\n`);
    return EXIT.good;
  }
  if (name === undefined || name === "--help" || name === "-h" || name === "help") {
    process.stdout.write(`${helpText()}\n`);
    return name === undefined ? EXIT.failed : EXIT.good;
  }

  try {
    const verb = verbs.find((v) => v.name === name);
    if (!verb) {
      const names = verbs.filter((v) => !v.internal).map((v) => v.name);
      const suggestion = nearest(name, names);
      throw new UsageError(
        `There is no verb "${name}". ${suggestion ? `Did you mean "${suggestion}"?` : `There are ${names.join(", ")}.`}`,
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
      explainSystem(error) !== undefined ||
      error instanceof UsageError ||
      error instanceof SelectionError ||
      (error as { code?: unknown }).code;
    terminal.printError(
      expected ? errorText(error) : `rollbook broke down: ${(error as Error).stack ?? String(error)}`,
    );
    terminal.result({ ok: false, error: { message: errorText(error) } });
    return EXIT.failed;
  }
}

process.exitCode = await main(process.argv.slice(2));
