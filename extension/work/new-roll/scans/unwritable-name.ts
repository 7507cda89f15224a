/** Names of scans and folders that a recipe cannot hold: said before anything is measured, with a name that it can. */
import { isDeviceName, pathProblem } from "../../../recipe/paths.ts";
import { plain } from "../../../recipe/plain-text.ts";

/** Why a file's name cannot stand in a recipe, and what to rename it to; undefined for a name that can. */
export function unwritableName(name: string): string | undefined {
  const reason = name.includes("\\") ? "it contains a backslash" : pathProblem(name);
  if (!reason) return undefined;
  return `The scan ${JSON.stringify(plain(name))} cannot be named in a recipe: ${reason}. Rename it, for example to ${JSON.stringify(writable(name))}, and run this again.`;
}

function writable(name: string): string {
  const dot = name.lastIndexOf(".");
  const [stem, ending] = dot > 0 ? [name.slice(0, dot), name.slice(dot)] : [name, ""];
  const tidy = (part: string): string =>
    // eslint-disable-next-line no-control-regex
    part.replaceAll(/[:\\\u0000-\u001f\u007f-\u009f]+/g, "-").replace(/[. ]+$/, "");
  const clean = (tidy(stem) || "scan") + tidy(ending);
  return (isDeviceName(clean) ? `scan-${clean}` : clean).slice(-100);
}
