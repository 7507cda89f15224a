/** What the command's own options do about a failure: remedies leave them out, since the editor shows those too. */
import { failureOf } from "../failure.ts";
import { errorText } from "../scans/files/system-errors.ts";

/** By the failure's code. */
const HINTS: Readonly<Record<string, string>> = {
  exists: "--overwrite replaces it.",
  taken: "--overwrite takes the names over.",
};

/** Message and remedy of any thrown value or failure, with the option that helps, where there is one. */
export function commandErrorText(error: unknown): string {
  const hint = HINTS[failureOf(error).code];
  return hint === undefined ? errorText(error) : `${errorText(error)} ${hint}`;
}
