import { createHash } from "node:crypto";
import { createReadStream } from "node:fs";
import { ScanError } from "./errors.ts";

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
  let size = 0;
  try {
    for await (const part of createReadStream(path, { highWaterMark: 1 << 20 }) as AsyncIterable<Uint8Array>) {
      beforePart();
      hash.update(part);
      size += part.length;
    }
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    if (code === undefined) throw error; // the caller's own
    if (code === "ENOENT") throw new ScanError("missing", path, "does not exist", "Check the name and the folder.");
    throw new ScanError("unreadable", path, `cannot be read (${code})`, "Check the file's permissions and its disk.");
  }
  return { size, sha256: hash.digest("hex") };
}
