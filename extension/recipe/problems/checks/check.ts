/** The parts that checks share: typed access to values, and collecting problems. */
import type { RecipePath, TextRange } from "../../path.ts";
import { rangeOf, type RangePart } from "../../yaml/positions.ts";
import { type Problem, type ProblemCode, problem } from "../../problems.ts";
import type { Subject } from "../subject.ts";
import type { Value } from "../../yaml/values.ts";

export type Fields = Readonly<Record<string, Value>>;

/** A recipe under a check of what its values mean together. Values of the wrong shape are another check's matter. */
export interface Checked {
  readonly subject: Subject;
  readonly root: Fields;
  /** Adds a problem at a value's text (or its key's), unless something is known to be wrong there. */
  readonly report: (code: ProblemCode, path: RecipePath, message: string, options?: ReportOptions) => void;
}

export interface ReportOptions {
  readonly part?: RangePart;
  readonly data?: Problem["data"];
  /** Another place in the same file that explains the problem. */
  readonly see?: { readonly path: RecipePath; readonly part?: RangePart; readonly message: string };
}

/** Collects problems; a value that `known` is about, or that lies around or inside one, is not complained of twice. */
export function collector(subject: Subject, known: readonly Problem[]): { checked: Checked; problems: Problem[] } {
  const problems: Problem[] = [];
  const bad = known.filter((p) => p.severity === "error").map((p) => p.path);
  const at = (path: RecipePath, part?: RangePart): TextRange =>
    rangeOf(subject.ast, path, part ?? "value") ?? [subject.ast.start, subject.ast.start];
  const checked: Checked = {
    subject,
    root: fields(subject.value) ?? {},
    report(code, path, message, { part, data, see } = {}) {
      if (
        bad.some(
          (other) =>
            other.length >= path.length &&
            path.every((step, i) => step === other[i]) &&
            other.length > 0 &&
            path.length > 0 &&
            part !== "key",
        )
      )
        return;
      const related = see && [{ file: subject.file, range: at(see.path, see.part), message: see.message }];
      problems.push(problem(code, at(path, part), path, message, { data, related }));
    },
  };
  return { checked, problems };
}

/** The mapping, or undefined for anything else. */
export const fields = (value: Value | undefined): Fields | undefined =>
  typeof value === "object" && value !== null && !Array.isArray(value) ? (value as Fields) : undefined;

export const list = (value: Value | undefined): readonly Value[] | undefined =>
  Array.isArray(value) ? (value as readonly Value[]) : undefined;

export const text = (value: Value | undefined): string | undefined => (typeof value === "string" ? value : undefined);

/** A list of finite numbers, or undefined for anything else. */
export function numbers(value: Value | undefined): readonly number[] | undefined {
  const items = list(value);
  return items?.every((item) => typeof item === "number") ? (items as readonly number[]) : undefined;
}

/** Every place where a roll, a frame or a stock states `key`, with its path. */
export function stated(root: Fields, key: string): { path: RecipePath; value: Value }[] {
  const found: { path: RecipePath; value: Value }[] = [];
  if (root[key] !== undefined) found.push({ path: [key], value: root[key] });
  for (const [id, frame] of Object.entries(fields(root.frames) ?? {})) {
    const value = fields(frame)?.[key];
    if (value !== undefined) found.push({ path: ["frames", id, key], value });
  }
  return found;
}
