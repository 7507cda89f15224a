import { joinPath, resolveInside } from "../paths.ts";
import type { RecipePath } from "../path.ts";
import type { Value } from "../values.ts";
import { type Checked, fields, list, stated, text } from "./check.ts";

/** Paths stay inside the allowed folders: a recipe comes from a colleague and may not reach anything else. */
export function checkPaths({ subject, root, report }: Checked): void {
  const check = (value: Value | undefined, path: RecipePath, folder = ""): void => {
    const name = text(value);
    if (name === undefined || name === "") return;
    const own = resolveInside(undefined, "", name.replace(/^(\.\.[\\/])+/, ""));
    const whole =
      own.refusal && own.refusal !== "it leads out of the workspace"
        ? own
        : resolveInside(
            subject.roots ?? rootsOf(subject.file),
            subject.file,
            folder === "" ? name : `${folder}/${name}`,
          );
    if (whole.refusal)
      report(
        "unsafe-path",
        path,
        `The path ${JSON.stringify(name)} is not allowed: ${whole.refusal}. Write a path relative to ${folder === "" ? "this file" : "the scans folder"}, inside the workspace.`,
      );
  };
  check(root.stock, ["stock"]);
  check(root.scans, ["scans"]);
  const folder = text(root.scans) || ".";
  for (const { path, value } of stated(root, "light")) check(fields(value)?.blank, [...path, "blank"], folder);
  for (const { path, value } of stated(root, "negative"))
    check(fields(fields(fields(value)?.base)?.read)?.scan, [...path, "base", "read", "scan"], folder);
  for (const { path, value } of stated(root, "scan").filter((s) => s.path.length > 1)) check(value, path, folder);
  for (const { path, value } of stated(root, "scans").filter((s) => s.path.length > 1))
    for (const [i, name] of (list(value) ?? []).entries()) check(name, [...path, i], folder);
}

/** Without stated roots a relative file lies in the workspace root; of an absolute one nothing is known. */
const rootsOf = (file: string): string | undefined =>
  /^([A-Za-z]:)?[\\/]/.test(file) || joinPath("", file) === undefined ? undefined : "";
