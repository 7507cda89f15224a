/** Progress of long work in a notification, with a way to cancel. */
import * as vscode from "vscode";
import { errorText } from "../../scans/files/system-errors.ts";
import type { RenderHooks } from "../../work/render/render-roll.ts";

/**
 * Runs work on a roll with a notification that shows how far it is and can cancel it.
 * @returns undefined where it was cancelled or failed; the person has been told why
 */
export async function withProgress<T>(
  title: string,
  log: vscode.LogOutputChannel,
  work: (hooks: Required<RenderHooks>) => Promise<T>,
): Promise<T | undefined> {
  const controller = new AbortController();
  try {
    return await vscode.window.withProgress(
      { location: vscode.ProgressLocation.Notification, title, cancellable: true },
      (progress, token) => {
        token.onCancellationRequested(() => controller.abort());
        let before = 0;
        return work({
          signal: controller.signal,
          onProgress(done, total, label) {
            progress.report({ increment: ((done - before) / total) * 100, message: label });
            before = done;
          },
        });
      },
    );
  } catch (error) {
    if (controller.signal.aborted) return undefined;
    log.error(error instanceof Error ? error : String(error));
    void vscode.window.showErrorMessage(errorText(error));
    return undefined;
  }
}
