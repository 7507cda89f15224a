/** Why something came to nothing, for people. What the host says is in the editor's language already. */
import { failureText, JobError } from "../extension/failure.ts";
import { t } from "./translate.ts";

export function reasonOf(error: unknown): string {
  // This side's own: the host has not spoken.
  if (error instanceof JobError && error.code === "timed-out") return t("No answer came in time. Try again.");
  return failureText(error);
}
