import { createHash } from "node:crypto";
import { closeSync, readSync } from "node:fs";
import { setImmediate } from "node:timers/promises";
import { ScanError } from "./errors.ts";
import { openFile } from "./source.ts";

/** What tells that a file is still the same. */
export interface Fingerprint {
  /** Bytes. */
  readonly size: number;
  /** SHA-256, lower-case hexadecimal. */
  readonly sha256: string;
}

/**
 * Reads a file once, in parts.
 * @param beforePart called before each part is taken up; it may throw to stop
 * @throws ScanError where it cannot be read
 */
export async function fingerprint(path: string, beforePart: () => void = () => {}): Promise<Fingerprint> {
  const hash = createHash("sha256");
  const { descriptor } = openFile(path);
  const part = new Uint8Array(PART);
  let size = 0;
  try {
    for (;;) {
      beforePart();
      const got = readPart(path, descriptor, part);
      if (got === 0) return { size, sha256: hash.digest("hex") };
      hash.update(part.subarray(0, got));
      size += got;
    }
  } finally {
    closeSync(descriptor);
  }
}

/**
 * Of bytes in memory. Gives way between parts, so that it costs little beside a file being written: the disk is waited
 * for meanwhile.
 */
export async function fingerprintOf(bytes: Uint8Array): Promise<Fingerprint> {
  const hash = createHash("sha256");
  for (let at = 0; at < bytes.length; at += PART) {
    hash.update(bytes.subarray(at, at + PART));
    await setImmediate();
  }
  return { size: bytes.length, sha256: hash.digest("hex") };
}

const PART = 1 << 20;

function readPart(path: string, descriptor: number, part: Uint8Array): number {
  try {
    return readSync(descriptor, part);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    throw new ScanError("unreadable", path, `cannot be read (${code})`, "Check the file's permissions and its disk.");
  }
}
