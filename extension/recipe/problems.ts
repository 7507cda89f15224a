/** Every kind of problem of a recipe, and what a problem is. */
import type { Severity } from "../engine/types.ts";
import type { RecipePath, TextRange } from "./path.ts";

interface Kind {
  readonly severity: Severity;
  readonly title: string;
}

const error = (title: string): Kind => ({ severity: "error", title });
const warning = (title: string): Kind => ({ severity: "warning", title });
const info = (title: string): Kind => ({ severity: "info", title });

/** Every kind of problem: its stable code, how grave it is, and a short title. Cause and remedy: docs/diagnostics.md. */
export const problemKinds = {
  // The text as a whole
  "too-large": error("The recipe is too large"),
  "not-utf8": error("Not UTF-8"),
  "conflict-markers": error("Unsolved merge conflict"),
  "yaml-syntax": error("Not valid YAML"),
  "tab-indent": error("Tab used for indentation"),
  "several-documents": error("Several documents in one file"),
  "not-a-mapping": error("The recipe is not a mapping"),
  "too-deep": error("Nested too deeply"),
  "too-many-aliases": error("Too many aliases"),
  "bad-alias": error("Alias without anchor"),
  "unknown-tag": error("Unknown tag"),
  "duplicate-key": error("Key stated twice"),
  "forbidden-key": error("Forbidden key"),
  "bad-key": error("Key is not plain text"),
  "not-finite": error("Not a finite number"),
  // Keys and values
  "unsupported-version": error("Unsupported version"),
  "unknown-key": error("Unknown key"),
  "missing-key": error("Missing key"),
  "empty-value": error("Key without a value"),
  "wrong-type": error("Wrong type of value"),
  "wrong-length": error("Wrong length"),
  "wrong-form": error("Wrong form"),
  "out-of-range": error("Out of range"),
  "not-one-of": error("Not one of the allowed values"),
  "bad-frame-id": error("Not a frame id"),
  "unquoted-frame-id": error("Frame id without quotes"),
  // What values mean together
  "impossible-date": error("Day not in the calendar"),
  "unsafe-path": error("Path leaves the allowed folders"),
  "gamma-and-curve": error("Both gamma and curve"),
  "curve-incomplete": error("Curve without densities"),
  "curve-lengths": error("Curve lists differ in length"),
  "not-ascending": error("Values do not ascend"),
  "not-monotone": error("Curve falls"),
  "colour-rows": error("Colour matrix tints neutrals"),
  "singular-matrix": error("Matrix cannot be inverted"),
  "base-implausible": info("Unusual base"),
  "area-outside": error("Area leaves the scan"),
  "scan-and-scans": error("Two of scan, scans, exposures and channels"),
  "one-exposure": warning("One exposure to merge"),
  "blank-of-channels": error("Blank of another number of lights"),
  "no-scan": error("Frame without a scan"),
  "join-length": error("Join does not fit the scans"),
  "scan-used-twice": warning("Scan used by two frames"),
  "duplicate-output": error("Two outputs of one name"),
  "same-file-name": error("Two pictures of one file name"),
  "print-impossible": error("Sheet cannot be printed"),
  "depth-impossible": error("File type cannot hold 16 bits"),
  "local-shape": error("Area without one shape"),
  "polygon-crosses": error("Polygon crosses itself"),
  "duplicate-area": error("Two areas of one identity"),
  "local-outside": warning("Area outside the picture"),
  "without-effect": warning("Key has no effect"),
  // Other files
  "missing-stock": error("Stock not found"),
  "broken-stock": error("Stock has errors"),
  "not-a-stock": error("Not a stock's recipe"),
  "missing-profile": warning("Profile not found"),
  "missing-scan": warning("Scan not found"),
  "scan-not-fetched": warning("Scan not fetched"),
} as const satisfies Record<string, Kind>;

export type ProblemCode = keyof typeof problemKinds;

/** What a quick fix needs. Which keys are there depends on the code. */
export interface ProblemData {
  /** The key or value that was probably meant. */
  readonly suggestion?: string | number;
  /** Everything that would be allowed. */
  readonly allowed?: readonly (string | number)[];
  readonly minimum?: number;
  readonly maximum?: number;
  /** The allowed number that is nearest to what is written. */
  readonly nearest?: number;
  /** The key that is missing, unknown or in the way. */
  readonly key?: string;
  /** The text as it has to be written, with quotes. */
  readonly quoted?: string;
  /** The types that are allowed, as in the schema. */
  readonly expected?: readonly string[];
  /** The file that is missing or broken, as a path in the workspace. */
  readonly file?: string;
}

/** A place elsewhere that explains a problem. */
export interface Related {
  readonly file: string;
  readonly range: TextRange;
  readonly message: string;
}

/** One problem of a recipe. `range` is exactly the offending text; `path` leads to the value or key it is about. */
export interface Problem {
  readonly code: ProblemCode;
  readonly severity: Severity;
  readonly message: string;
  readonly range: TextRange;
  readonly path: RecipePath;
  readonly data?: ProblemData;
  readonly related?: readonly Related[];
}

type Extra = Pick<Problem, "data" | "related">;

/** A problem with the severity of its code. */
export function problem(
  code: ProblemCode,
  range: TextRange,
  path: RecipePath,
  message: string,
  extra: Extra = {},
): Problem {
  return { code, severity: problemKinds[code].severity, message, range, path, ...extra };
}

/** Problems of scans that are not on this computer, which a person may not want to see where recipes are edited away from them. */
export const isAwayFromScans = ({ code }: Problem): boolean => code === "missing-scan" || code === "scan-not-fetched";

/** Whether any of the problems is an error. */
export const hasErrors = (problems: readonly Problem[]): boolean => problems.some((p) => p.severity === "error");
