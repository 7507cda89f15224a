/** Standard output, standard error and progress of a verb, with `--json` and `--quiet`. */
import type { Writable } from "node:stream";
import { plain, plainJson } from "../recipe/plain-text.ts";
import { paintFor } from "./colours.ts";
import { progressBar } from "./progress-bar.ts";

/** Where a command's words go. With `json`, standard output gets one object at the end and nothing else. */
export interface Terminal {
  readonly json: boolean;
  /** A line for people on standard output; nothing with `json` or `quiet`. */
  print(line: string): void;
  /** A problem or finding on standard output: what `print` does, with `quiet` too. */
  report(line: string): void;
  /** Bytes as they are on standard output; nothing with `json`. */
  bytes(data: Uint8Array): void;
  /** A line on standard error. */
  printError(line: string): void;
  /** The one object on standard output; nothing without `json`. */
  result(value: unknown): void;
  /** One object of several on standard output, on a line of its own; nothing without `json`. */
  event(value: unknown): void;
  /** Shows how far the work is, on a terminal alone; nothing with `quiet`. */
  progress(done: number, total: number, label: string): void;
  /** Takes the bar away. */
  clear(): void;
}

export interface Streams {
  readonly out: Writable & { readonly isTTY?: boolean };
  readonly err: Writable & { readonly isTTY?: boolean; readonly columns?: number };
}

export interface TerminalOptions {
  readonly json?: boolean;
  readonly quiet?: boolean;
  readonly environment?: NodeJS.ProcessEnv;
}

export function openTerminal({ out, err }: Streams, options: TerminalOptions = {}): Terminal {
  const { json = false, quiet = false, environment = process.env } = options;
  const paintOut = paintFor(out.isTTY === true, environment);
  const paintErr = paintFor(err.isTTY === true, environment);
  const bar = err.isTTY && !quiet ? progressBar(err) : undefined;
  const clear = (): void => bar?.clear();
  const report = (line: string): void => {
    clear();
    // Painted last: what comes from a recipe or a camera file brings no control characters of its own.
    if (!json) out.write(`${paintOut(plain(line))}\n`);
  };
  return {
    json,
    print(line) {
      if (!quiet) report(line);
    },
    report,
    bytes(data) {
      clear();
      if (!json) out.write(data);
    },
    printError(line) {
      clear();
      err.write(`${paintErr(plain(line))}\n`);
    },
    result(value) {
      clear();
      if (json) out.write(`${plainJson(value)}\n`);
    },
    event(value) {
      clear();
      // A line break within a text is written as \\n: what is left are those between the values.
      if (json) out.write(`${plainJson(value).replaceAll(/\n */g, " ")}\n`);
    },
    progress(done, total, label) {
      bar?.show(done, total, plain(label));
    },
    clear,
  };
}
