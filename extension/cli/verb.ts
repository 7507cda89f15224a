/** What a verb is: its options, its call and its exit codes. */
import type { Terminal } from "./terminal.ts";

/** Exit codes of every verb. */
export const EXIT = { good: 0, problems: 1, failed: 2, interrupted: 130 } as const;

/** One option of a verb; `value` names what follows it, in the help. */
export interface OptionSpec {
  readonly value?: string;
  readonly short?: string;
  readonly help: string;
}

/** What a verb was called with. */
export interface Call {
  readonly options: Readonly<Record<string, string | boolean | undefined>>;
  readonly files: readonly string[];
  readonly terminal: Terminal;
  /** Aborted by Ctrl-C. */
  readonly signal: AbortSignal;
}

export interface Verb {
  readonly name: string;
  /** Called by other programs: not in the list of verbs. */
  readonly internal?: boolean;
  /** One line for the list of verbs. */
  readonly summary: string;
  /** What follows the verb's name in its usage line. */
  readonly usage: string;
  readonly details: string;
  readonly example: string;
  readonly options: Readonly<Record<string, OptionSpec>>;
  /** Fewest and most file arguments. */
  readonly files: readonly [number, number];
  /** @returns the exit code. */
  run(call: Call): Promise<number>;
}

/** A call that makes no sense; the message says what is wrong and what to write instead. */
export class UsageError extends Error {}

/** The text of an option, or undefined. */
export function text(call: Call, name: string): string | undefined {
  const value = call.options[name];
  return typeof value === "string" ? value : undefined;
}

export const flag = (call: Call, name: string): boolean => call.options[name] === true;

/** A whole number between `least` and `most`. */
export function whole(call: Call, name: string, min: number, max: number): number | undefined {
  const value = text(call, name);
  if (value === undefined) return undefined;
  const number = Number(value);
  if (!/^\d+$/.test(value) || number < min || number > max)
    throw new UsageError(`--${name} takes a whole number from ${min} to ${max}, not "${value}".`);
  return number;
}
