/** Problems of recipes as the command prints them: path:line:column, or JSON. */
import { relative, resolve } from "node:path";
import type { RecipeDocument } from "../recipe/problems/document.ts";
import { type Problem, problemKinds } from "../recipe/problems.ts";
import type { Workspace } from "../work/files/workspace.ts";
import type { Terminal } from "./terminal.ts";

/** A problem with its place in words and numbers: what --json gives. */
export interface LocatedProblem {
  readonly file: string;
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
  readonly severity: Problem["severity"];
  readonly code: Problem["code"];
  readonly title: string;
  readonly message: string;
}

/** Where a workspace file lies, as seen from the folder the command runs in. */
export const shownPath = (workspace: Workspace, file: string): string =>
  relative(process.cwd(), resolve(workspace.root, file)) || file;

export function locate(document: RecipeDocument, problem: Problem, shown: string): LocatedProblem {
  const start = document.positionOf(problem.range[0]);
  const end = document.positionOf(problem.range[1]);
  return {
    file: shown,
    line: start.line,
    column: start.column,
    endLine: end.line,
    endColumn: end.column,
    severity: problem.severity,
    code: problem.code,
    title: problemKinds[problem.code].title,
    message: problem.message,
  };
}

/** One line each, as compilers print them, so that editors and CI systems find the place. */
export function printProblems(terminal: Terminal, problems: readonly LocatedProblem[], print: "out" | "err"): void {
  for (const { file, line, column, severity, message, code } of problems) {
    const text = `${file}:${line}:${column} ${severity} ${message} [${code}]`;
    if (print === "out") terminal.report(text);
    else terminal.printError(text);
  }
}

/** "2 errors, 1 warning"; "no problems". */
export function countText(problems: readonly { severity: Problem["severity"] }[]): string {
  const parts = (["error", "warning", "info"] as const)
    .map((severity) => ({ severity, n: problems.filter((p) => p.severity === severity).length }))
    .filter(({ n }) => n > 0)
    .map(
      ({ severity, n }) =>
        `${n} ${severity === "info" ? (n === 1 ? "note" : "notes") : severity + (n === 1 ? "" : "s")}`,
    );
  return parts.join(", ") || "no problems";
}
