/** Checks that paths stay inside the allowed folders. */
import { pathProblem, resolveInside } from "../../paths.ts";
import type { RecipePath } from "../../path.ts";
import type { Value } from "../../yaml/values.ts";
import { type Checked, fields, list, stated, text } from "./check.ts";

/** Paths stay inside the allowed folders: a recipe comes from a colleague and may not reach anything else. */
export function checkPaths({ subject, root, report }: Checked): void {
  const roots = subject.roots ?? rootsOf(subject.file);
  const check = (value: Value | undefined, path: RecipePath, folder = ""): boolean => {
    const name = text(value);
    if (name === undefined || name === "") return false;
    const from = folder === "" ? name : `${folder}/${name}`;
    const refused = pathProblem(name) ?? resolveInside(roots, subject.file, from).problem;
    if (refused)
      report(
        "unsafe-path",
        path,
        `The path ${JSON.stringify(name)} is not allowed: ${refused}. Write a path relative to ${folder === "" ? "this file" : "the scans folder"}, inside the workspace.`,
      );
    return refused === undefined;
  };
  check(root.stock, ["stock"]);
  for (const [i, output] of (list(root.output) ?? []).entries())
    check(fields(fields(output)?.print)?.profile, ["output", i, "print", "profile"]);
  // A folder that is refused is said once, not at every scan in it.
  const folder = check(root.scans, ["scans"]) ? text(root.scans) : ".";
  const checkNamed = (value: Value | undefined, path: RecipePath): void => {
    check(value, path, folder);
    for (const [key, name] of Object.entries(fields(value) ?? {})) check(name, [...path, key], folder);
  };
  for (const { path, value } of stated(root, "light")) checkNamed(fields(value)?.blank, [...path, "blank"]);
  for (const { path, value } of stated(root, "negative"))
    check(fields(fields(fields(value)?.base)?.read)?.scan, [...path, "base", "read", "scan"], folder);
  for (const { path, value } of stated(root, "scan").filter((s) => s.path.length > 1)) check(value, path, folder);
  for (const key of ["scans", "exposures"])
    for (const { path, value } of stated(root, key).filter((s) => s.path.length > 1))
      for (const [i, name] of (list(value) ?? []).entries()) check(name, [...path, i], folder);
  for (const { path, value } of stated(root, "channels")) checkNamed(value, path);
}

/** Without stated roots a relative file lies in the workspace root; of an absolute one nothing is known. */
const rootsOf = (file: string): string | undefined => (/^([A-Za-z]:)?[\\/]/.test(file) ? undefined : "");
