/** Reads files before they are needed, so that a slow disk is at work while the processors are. */
import { close, read } from "node:fs";
import { promisify } from "node:util";
import { openFile } from "./source.ts";

const readPart = promisify(read);
const closeFile = promisify(close);

/** Bytes at a time. */
const PART = 1 << 22;
/** Bytes of a file that are read ahead at most: more would push out what is needed earlier. */
const MAX_BYTES = 1 << 28;

/** Reads one file after the other, in the order in which they were asked for, into what the system keeps of the disk. */
export function readerAhead(): (path: string, isAwaited: () => boolean) => void {
  let before = Promise.resolve();
  // Whatever is wrong with a file is told by the job that needs it.
  return (path, isAwaited) => void (before = before.then(() => readThrough(path, isAwaited)).catch(() => {}));
}

/** Stops where the file is no longer awaited: its job reads it by itself now. */
async function readThrough(path: string, isAwaited: () => boolean): Promise<void> {
  if (!isAwaited()) return;
  const { descriptor, size } = openFile(path);
  try {
    const buffer = Buffer.allocUnsafe(Math.min(PART, size));
    for (let at = 0; at < Math.min(size, MAX_BYTES) && isAwaited(); at += PART)
      await readPart(descriptor, buffer, 0, buffer.length, at);
  } finally {
    await closeFile(descriptor);
  }
}
