/** Hashes of data, and stamps by which a file's change is noticed. */
import { createHash } from "node:crypto";
import { statSync } from "node:fs";
import { fileStamp } from "./file-stamp.ts";

/** JSON with sorted keys, so that equal values give equal text. */
function canonical(value: unknown): string {
  if (value === null || typeof value !== "object") return JSON.stringify(value) ?? "null";
  if (Array.isArray(value)) return `[${value.map(canonical).join(",")}]`;
  const entries = Object.entries(value).filter(([, v]) => v !== undefined);
  entries.sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0));
  return `{${entries.map(([k, v]) => `${JSON.stringify(k)}:${canonical(v)}`).join(",")}}`;
}

/** SHA-256 (FIPS 180-4) of a value's canonical JSON, in hexadecimal. */
export const hashOf = (value: unknown): string => createHash("sha256").update(canonical(value)).digest("hex");

/** The stamp of a file on disk. */
export function stampOf(path: string): string {
  const found = statSync(path, { throwIfNoEntry: false });
  return fileStamp(found && { size: found.size, mtime: found.mtimeMs });
}
