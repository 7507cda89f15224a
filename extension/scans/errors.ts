/** Why a scan cannot be read, and what to be warned of: codes and sentences. */
import { basename } from "node:path";

/** What can be wrong with a scan, as a word for programs. */
export type ScanErrorCode =
  | "missing"
  | "not-a-file"
  | "unreadable"
  | "empty"
  | "not-fetched"
  | "unrecognised"
  | "truncated"
  | "corrupt"
  | "unsupported"
  | "too-large"
  | "codec"
  | "write"
  | "exists";

/** A scan that cannot be used. `message` names the file and says why in one sentence; `remedy` says what to do. */
export class ScanError extends Error {
  readonly code: ScanErrorCode;
  /** The path as it was asked for. */
  readonly file: string;
  readonly remedy: string;

  /** `why` continues the sentence that begins with the file's name: "is empty", "ends too early: …". */
  constructor(code: ScanErrorCode, file: string, why: string, remedy: string) {
    super(`${basename(file)} ${why}.`);
    this.name = "ScanError";
    this.code = code;
    this.file = file;
    this.remedy = remedy;
  }
}

/** @param width as the file claims */
export function tooLarge(file: string, width: number, height: number): ScanError {
  return new ScanError(
    "too-large",
    file,
    `claims to be ${width} × ${height} pixels`,
    "If the size is true, scan in parts and join them; else make the scan again.",
  );
}

export type ScanWarningCode =
  | "jpeg"
  | "eight-bit"
  | "encoded"
  | "lossy"
  | "processed"
  | "flat"
  | "incomplete"
  | "dark"
  | "exposure";

/** Something about a usable scan that the photographer should know. */
export interface ScanWarning {
  readonly code: ScanWarningCode;
  /** A sentence with what it costs and what to do. */
  readonly message: string;
}
