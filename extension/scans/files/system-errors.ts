/** What the operating system's error codes mean for whoever reads and writes files, and what to do: one table for both. */
import { type Failure, failureOf, failureText } from "../../failure.ts";

type Reason = readonly [why: string, remedy: string];

/** By the names of POSIX (errno.h). */
const BOTH: Readonly<Record<string, Reason>> = {
  EACCES: ["cannot be opened: permission denied", "Check the permissions of the file and of its folders."],
  EPERM: ["cannot be opened: the system does not permit it", "Check the permissions of the file and of its folders."],
  ENOENT: ["was not found", "Check the name and its folder."],
  ENOTDIR: ["lies below a file, not a folder", "Choose another folder."],
  EISDIR: ["is the name of a folder", "Name a file."],
  ELOOP: ["leads through links that never end", "Remove the links that point to each other."],
  ENAMETOOLONG: ["has a name that is too long for this disk", "Choose a shorter name."],
  EMFILE: [
    "cannot be opened: this program has too many files open",
    "Raise the limit (ulimit -n), or use fewer workers.",
  ],
  ENFILE: ["cannot be opened: the system has too many files open", "End other programs and run again."],
  ENOMEM: ["cannot be opened: memory is short", "End other programs, or use fewer workers."],
  EIO: ["cannot be read or written: the disk reports an error", "Check the disk and its cable."],
  ENXIO: ["is a device or a pipe, not a file", "Name a file."],
  ENODEV: ["is a device or a pipe, not a file", "Name a file."],
  EBUSY: ["is in use by another program", "Close that program and run again."],
  ETXTBSY: ["is in use by another program", "Close that program and run again."],
  ESTALE: ["lies on a network disk that has changed", "Connect the disk again and run again."],
  ETIMEDOUT: ["lies on a network disk that does not answer", "Check the connection and run again."],
  EINVAL: ["has a name that this system does not allow", "Choose another name."],
};

const WRITING: Readonly<Record<string, Reason>> = {
  EEXIST: ["exists already and is not replaced", "Choose another name or folder."],
  ENOENT: ["cannot be created there: its folder was not found, or takes no files", "Choose another folder."],
  ENOSPC: ["does not fit on the disk", "Free some space and run again."],
  EDQUOT: ["does not fit into this user's share of the disk", "Free some space and run again."],
  EFBIG: [
    "is larger than this user may write",
    "Raise the limit on the size of files (ulimit -f), or choose a smaller output.",
  ],
  EACCES: ["cannot be written: permission denied", "Check the folder's permissions."],
  EPERM: ["cannot be written: the system does not permit it", "Check the folder's permissions."],
  EROFS: ["lies on a disk that can only be read", "Choose another folder."],
};

const FILE_FOR_FOLDER: Reason = ["is a file where a folder is needed", "Choose another folder."];

/** Why a file cannot be read or written, as the end of a sentence that begins with its name, and what to do. */
export function reasonOf(error: NodeJS.ErrnoException, doing: "read" | "write"): Reason {
  const code = error.code ?? error.message;
  if (error.syscall === "mkdir" && code === "EEXIST") return FILE_FOR_FOLDER;
  const known = (doing === "write" ? WRITING[code] : undefined) ?? BOTH[code];
  return known ?? [`cannot be ${doing === "read" ? "read" : "written"} (${code})`, "Check the disk."];
}

const WRITES = /^(mkdir|write|fsync|ftruncate|rename|link|symlink|unlink|rmdir|chmod|fchmod|utime|copyfile)/;

/** A sentence about what happened, and one about what to do. */
export interface Explained {
  readonly message: string;
  readonly remedy: string;
}

/** An error of the operating system, or of missing memory, in words; undefined for any other error. */
export function explainSystem(error: unknown): Explained | undefined {
  if (!(error instanceof Error)) return undefined;
  if (isOutOfMemory(error))
    return {
      message: "Memory is not enough for this work.",
      remedy: "End other programs, use fewer workers, or raise the limit on memory (ulimit -v).",
    };
  const { code, syscall, path, dest } = error as NodeJS.ErrnoException & { dest?: string };
  if (typeof code !== "string" || syscall === undefined) return undefined;
  if (syscall.startsWith("spawn"))
    return {
      message: `The program ${path ?? ""} could not be started (${code}).`,
      remedy: "Check the limits on processes and open files (ulimit -u, ulimit -n), and that memory is left.",
    };
  const [why, remedy] = reasonOf(error, WRITES.test(syscall) ? "write" : "read");
  return { message: `${dest ?? path ?? "A file"} ${why}.`, remedy };
}

/** Whether memory could not be had, be it JavaScript's or WebAssembly's: V8 and libraries have no common code for it. */
function isOutOfMemory(error: Error): boolean {
  const { code, message } = error as NodeJS.ErrnoException;
  return (
    code === "ENOMEM" ||
    code === "ERR_MEMORY_ALLOCATION_FAILED" ||
    code === "ERR_WORKER_OUT_OF_MEMORY" ||
    (error.name === "RangeError" && /memory|allocation failed|Array buffer/i.test(message)) ||
    /WebAssembly.*(out of memory|allocate memory)|memory access out of bounds.*grow|Cannot allocate memory|out of memory/i.test(
      message,
    )
  );
}

/** Any thrown value as a failure, with the operating system's errors in words. */
export function describeError(error: unknown): Failure {
  return { ...failureOf(error), ...explainSystem(error) };
}

/** Message and remedy of any thrown value as one text for people, with the operating system's errors in words. */
export function errorText(error: unknown): string {
  const explained = explainSystem(error);
  return explained ? `${explained.message} ${explained.remedy}` : failureText(error);
}
