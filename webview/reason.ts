/** Why something came to nothing, for people. What the host says is in the editor's language already. */
import { cancelledError, failureText, JobError } from "../extension/failure.ts";
import { t } from "./translate.ts";

/** Whether something was given up, which is nobody's fault. */
export const isCancelled = (error: unknown): boolean => (error as { code?: unknown }).code === cancelledError().code;

export function reasonOf(error: unknown): string {
  // This side's own: the host has not spoken.
  if (error instanceof JobError && error.code === "timed-out") return t("No answer came in time. Try again.");
  return failureText(error);
}
