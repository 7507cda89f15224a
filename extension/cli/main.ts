/** The `rollbook` command: finds the verb, reads its arguments, runs it, and turns what happens into an exit code. */
import { commandErrorText } from "./option-hints.ts";
import { nearest } from "../recipe/problems/nearest.ts";
import { SelectionError } from "../work/frame/select-frames.ts";
import { removeUnfinished } from "../scans/files/atomic.ts";
import { explainSystem, reasonOf } from "../scans/files/system-errors.ts";
import { VERSION } from "../work/files/version.ts";
import { helpOf, readArguments } from "./arguments.ts";
import { isPoolOpen } from "./programs.ts";
import { openTerminal } from "./terminal.ts";
import { EXIT, UsageError, type Verb } from "./verb.ts";
import { verbs } from "./verbs.ts";

const helpText = (): string => {
  const shown = verbs.filter((verb) => !verb.internal);
  const width = Math.max(...shown.map((verb) => verb.name.length));
  return [
    "rollbook VERB …: turns camera scans of film into finished pictures, from recipes in plain text.",
    "",
    ...shown.map((verb) => `  ${verb.name.padEnd(width)}  ${verb.summary}`),
    "",
    '"rollbook help VERB" describes one. Exit codes: 0 good, 1 problems found, 2 could not run, 130 interrupted.',
    "",
    "Example: rollbook render harbour.roll.yaml -o pictures",
  ].join("\n");
};

/** @throws UsageError with the verb that was probably meant */
function verbOf(name: string): Verb {
  const verb = verbs.find((v) => v.name === name);
  if (verb) return verb;
  const names = verbs.filter((v) => !v.internal).map((v) => v.name);
  const meant = nearest(name, names);
  throw new UsageError(
    `There is no verb "${name}". ${meant ? `Did you mean "${meant}"?` : `There are ${names.join(", ")}.`}`,
  );
}

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
  const terminal = openTerminal(streams, { json: args.includes("--json"), quiet: args.includes("--quiet") });
  const stop = new AbortController();
  endOnSignals(stop);
  endOnClosedOutput();
  if (name === "--version") {
    process.stdout.write(`${VERSION}\n`);
    return EXIT.good;
  }
  if (name === undefined || name === "--help" || name === "-h" || (name === "help" && rest.length === 0)) {
    process.stdout.write(`${helpText()}\n`);
    return name === undefined ? EXIT.failed : EXIT.good;
  }

  try {
    if (name === "help") {
      process.stdout.write(`${rest.map((one) => helpOf(verbOf(one))).join("\n\n")}\n`);
      return EXIT.good;
    }
    const verb = verbOf(name);
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
      expected ? commandErrorText(error) : `rollbook broke down: ${(error as Error).stack ?? String(error)}`,
    );
    terminal.result({ ok: false, error: { message: commandErrorText(error) } });
    return EXIT.failed;
  } finally {
    terminal.clear();
  }
}

process.exitCode = await main(process.argv.slice(2));
