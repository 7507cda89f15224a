/** Why something came to nothing, for people. What the host says is in the editor's language already. */
import { RequestError } from "../extension/messages.ts";
import { word } from "./words.ts";

export function reasonOf(error: unknown): string {
  // This side's own: the host has not spoken.
  if (error instanceof RequestError && error.code === "timed-out") return word("No answer came in time. Try again.");
  return error instanceof Error ? error.message : String(error);
}
