import type { Writable } from "node:stream";
import { plain, plainJson } from "../recipe/plain-text.ts";

/** Where a command's words go. With `json`, standard output gets one object at the end and nothing else. */
export interface Terminal {
  readonly json: boolean;
  /** A line for people on standard output; nothing with `json`. */
  print(line: string): void;
  /** Bytes as they are on standard output; nothing with `json`. */
  bytes(data: Uint8Array): void;
  /** A line on standard error. */
  printError(line: string): void;
  /** The one object on standard output; nothing without `json`. */
  result(value: unknown): void;
  /** One object of several on standard output, on a line of its own; nothing without `json`. */
  event(value: unknown): void;
  /** Shows how far the work is, on a terminal alone. */
  progress(done: number, total: number, label: string): void;
  /** Takes the bar away. */
  clear(): void;
}

export interface Streams {
  readonly out: Writable;
  readonly err: Writable & { readonly isTTY?: boolean; readonly columns?: number };
}

const BAR = 24;

export function openTerminal({ out, err }: Streams, json: boolean): Terminal {
  let shown = false;
  const clear = (): void => {
    if (shown) err.write("\r\u001b[K");
    shown = false;
  };
  return {
    json,
    print(line) {
      clear();
      if (!json) out.write(`${plain(line)}\n`);
    },
    bytes(data) {
      clear();
      if (!json) out.write(data);
    },
    printError(line) {
      clear();
      err.write(`${plain(line)}\n`);
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
      if (!err.isTTY || total === 0) return;
      const part = Math.min(1, done / total);
      const full = Math.round(part * BAR);
      const bar = "█".repeat(full) + "░".repeat(BAR - full);
      const text = `${bar} ${String(Math.round(part * 100)).padStart(3)} %  ${plain(label)}`;
      err.write(`\r\u001b[K${text.slice(0, (err.columns ?? 80) - 1)}`);
      shown = true;
    },
    clear,
  };
}
