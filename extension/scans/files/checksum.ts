/** Bytes that carry a checksum of themselves, so that a disk's or a cut file's damage is noticed when they are read. */
import { createHash } from "node:crypto";

const LENGTH = 32;

/** The bytes behind their SHA-256. */
export function sealed(bytes: Uint8Array): Uint8Array {
  return Buffer.concat([digest(bytes), bytes]);
}

/** @returns what was sealed; undefined where anything of it has changed */
export function unsealed(bytes: Uint8Array): Uint8Array | undefined {
  const content = bytes.subarray(LENGTH);
  return digest(content).equals(bytes.subarray(0, LENGTH)) ? content : undefined;
}

const digest = (bytes: Uint8Array): Buffer => createHash("sha256").update(bytes).digest();
