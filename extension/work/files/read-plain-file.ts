/** Reads text files that people name: no pipes, devices or endless files. */
import { JobError } from "../../failure.ts";
import { closeSync, constants, fstatSync, openSync, readFileSync } from "node:fs";
import { reasonOf } from "../../scans/files/system-errors.ts";

export interface PlainFileOptions {
  /** Refuse a link in the last part of the path; followed where not given. */
  readonly links?: "refuse";
}

/** No text that this program reads is longer; tables and recipes are thousands of times shorter. */
const MAX_BYTES = 512 * 2 ** 20;

/**
 * Reads a file, and nothing but a file: a pipe or a device would keep its reader for ever.
 * @throws JobError "unreadable" with what to do
 */
export function readPlainFile(path: string, { links }: PlainFileOptions = {}): Buffer {
  const refuse = (why: string, remedy: string): JobError =>
    new JobError({ code: "unreadable", message: `${path} ${why}.`, remedy, file: path });
  const noFollow = links === "refuse" ? (constants.O_NOFOLLOW ?? 0) : 0;
  let descriptor: number;
  try {
    // Without waiting for the other end of a pipe; Windows has neither flag.
    descriptor = openSync(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0) | noFollow);
  } catch (error) {
    if (noFollow && (error as NodeJS.ErrnoException).code === "ELOOP")
      throw refuse("is a link, or lies behind a loop of links", "Name the file itself.");
    throw refuse(...reasonOf(error as NodeJS.ErrnoException, "read"));
  }
  try {
    const stats = fstatSync(descriptor);
    if (stats.isDirectory()) throw refuse("is a folder", "Name a file.");
    if (!stats.isFile()) throw refuse("is a pipe or a device, not a file", "Name a file.");
    if (stats.size > MAX_BYTES) throw refuse("is longer than 512 MB", "Check that this is the file you mean.");
    return readFileSync(descriptor);
  } catch (error) {
    throw error instanceof JobError ? error : refuse(...reasonOf(error as NodeJS.ErrnoException, "read"));
  } finally {
    closeSync(descriptor);
  }
}
