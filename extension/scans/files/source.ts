/** Reads parts of a file or of memory by the same interface. */
import { closeSync, constants, fstatSync, openSync, readSync } from "node:fs";
import { ScanError } from "../errors.ts";
import { missingFromStore } from "./pointer.ts";

/** Bytes that are read in parts: a file's headers are looked at without loading the file. */
export interface ByteSource {
  readonly size: number;
  /** Up to `length` bytes from `at`; fewer, or none, where the source ends. */
  read(at: number, length: number): Uint8Array;
}

export function memorySource(bytes: Uint8Array): ByteSource {
  return { size: bytes.length, read: (at, length) => bytes.subarray(at, at + length) };
}

/**
 * Opens a scan for reading in parts, calls `use` and closes the file again.
 * @throws ScanError when there is no such file, it is a folder, empty, or may not be read.
 */
export async function withFile<T>(path: string, use: (source: ByteSource) => Promise<T>): Promise<T> {
  const { descriptor, size } = openFile(path);
  try {
    if (size === 0)
      throw new ScanError("empty", path, "is empty", "Copy it from the camera's card again, or make the scan again.");
    return await use(fileSource(descriptor, size));
  } finally {
    closeSync(descriptor);
  }
}

/**
 * Opens a file for reading, and nothing but a file.
 * @throws ScanError when there is none, it is a folder or a device, or may not be read
 */
export function openFile(path: string): { readonly descriptor: number; readonly size: number } {
  const descriptor = open(path);
  const stats = fstatSync(descriptor);
  if (stats.isFile()) return { descriptor, size: stats.size };
  closeSync(descriptor);
  if (stats.isDirectory())
    throw new ScanError("not-a-file", path, "is a folder", "Name the scan itself, not its folder.");
  throw new ScanError("not-a-file", path, "is not a file", "Name the scan itself, not its folder or a device.");
}

/** Without waiting: a pipe by the name of a scan would keep whoever opens it for ever. Windows has no such flag. */
const AT_ONCE = constants.O_RDONLY | (constants.O_NONBLOCK ?? 0);

function open(path: string): number {
  try {
    return openSync(path, AT_ONCE);
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    if (code === "ENOENT" || code === "ENOTDIR")
      throw (
        missingFromStore(path) ??
        new ScanError("missing", path, "does not exist", "Check the name and the folder in the recipe.")
      );
    throw new ScanError("unreadable", path, `cannot be read (${code})`, "Check the file's permissions and its disk.");
  }
}

function fileSource(descriptor: number, size: number): ByteSource {
  return {
    size,
    read(at, length) {
      const bytes = new Uint8Array(Math.max(0, Math.min(length, size - at)));
      let filled = 0;
      while (filled < bytes.length) {
        const got = readSync(descriptor, bytes, filled, bytes.length - filled, at + filled);
        if (got === 0) break;
        filled += got;
      }
      return bytes.subarray(0, filled);
    },
  };
}
