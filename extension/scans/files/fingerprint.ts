/** Size and SHA-256 of a file, by which it is known again. */
import { createHash, type Hash } from "node:crypto";
import { closeSync, readSync } from "node:fs";
import { setImmediate } from "node:timers/promises";
import { ScanError } from "../errors.ts";
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
  const size = hashParts(path, () => hash, beforePart);
  return { size, sha256: hash.digest("hex") };
}

/**
 * The id that git gives to a file's content: the hash of "blob", its size and its bytes (gitformat-pack, "Object types").
 * @param name of the hash: sha1, or sha256 in repositories of that format
 * @throws ScanError where it cannot be read
 */
export async function blobId(path: string, name: "sha1" | "sha256"): Promise<string> {
  const hash = createHash(name);
  hashParts(path, (size) => hash.update(`blob ${size}\0`));
  return hash.digest("hex");
}

/** @param open given the file's size, returns the hash that is to be fed. @returns the number of bytes */
function hashParts(path: string, open: (size: number) => Hash, beforePart: () => void = () => {}): number {
  const file = openFile(path);
  const part = new Uint8Array(PART);
  let size = 0;
  try {
    const hash = open(file.size);
    for (;;) {
      beforePart();
      const got = readPart(path, file.descriptor, part);
      if (got === 0) return size;
      hash.update(part.subarray(0, got));
      size += got;
    }
  } finally {
    closeSync(file.descriptor);
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
