/** Asks whether rejected frames are rendered too. */
import * as vscode from "vscode";
import type { ResolvedRoll } from "../../recipe/resolve/resolve.ts";
import { framesToWrite } from "../../work/frame/select-frames.ts";

/**
 * Asks whether the frames whose choice is reject are written too; does not ask where the roll has none.
 * @param title of the work that the frames are for
 * @returns undefined where somebody steps back
 */
export async function askRejected(
  roll: Pick<ResolvedRoll, "frames">,
  title: string,
): Promise<{ readonly withoutRejected: boolean } | undefined> {
  const all = framesToWrite(roll).length;
  const chosen = framesToWrite(roll, { withoutRejected: true }).length;
  if (all === chosen) return { withoutRejected: false };
  return await vscode.window.showQuickPick(
    [
      { label: vscode.l10n.t("All {0} frames", all), withoutRejected: false },
      { label: vscode.l10n.t("{0} frames, without the {1} rejected", chosen, all - chosen), withoutRejected: true },
    ],
    { title, placeHolder: vscode.l10n.t("Which frames") },
  );
}
