import { join } from "node:path";
import * as vscode from "vscode";
import type { Pool } from "../../work/pool/pool.ts";
import { type FrameReport, renderRoll } from "../../work/render/render-roll.ts";
import { JobError } from "../../failure.ts";
import type { RollPlace } from "./pictures.ts";

const LAST_FOLDER = "rollbook.export.folder";

/** Asks for a folder and writes a frame's outputs into it, with progress and a way to stop. */
export async function exportFrame(
  { roll, workspace }: RollPlace,
  frame: string,
  pool: Pool,
  memory: vscode.Memento,
): Promise<readonly string[]> {
  const last = memory.get<string>(LAST_FOLDER);
  const [folder] =
    (await vscode.window.showOpenDialog({
      canSelectFolders: true,
      canSelectFiles: false,
      defaultUri: vscode.Uri.file(last ?? workspace.root),
      openLabel: vscode.l10n.t("Export here"),
      title: vscode.l10n.t("Export frame {0}: one folder for each output is made here", frame),
    })) ?? [];
  if (!folder) return [];
  await memory.update(LAST_FOLDER, folder.fsPath);
  const write = (overwrite: boolean): Thenable<FrameReport> =>
    vscode.window.withProgress(
      {
        location: vscode.ProgressLocation.Notification,
        title: vscode.l10n.t("Exporting frame {0}", frame),
        cancellable: true,
      },
      async (progress, token) => {
        const controller = new AbortController();
        token.onCancellationRequested(() => controller.abort());
        let done = 0;
        const [report] = await renderRoll(
          roll,
          workspace,
          pool,
          { frames: [frame], outputs: roll.outputs, directory: folder.fsPath, overwrite, resume: false },
          {
            signal: controller.signal,
            onProgress(now, total) {
              progress.report({ increment: ((now - done) / total) * 100 });
              done = now;
            },
          },
        );
        return report;
      },
    );
  let report = await write(false);
  if (report.failure?.code === "exists") {
    const replace = vscode.l10n.t("Replace");
    const answer = await vscode.window.showWarningMessage(
      vscode.l10n.t(
        "There are pictures of frame {0} in this folder that this roll did not write, or that were changed since.",
        frame,
      ),
      { modal: true },
      replace,
    );
    if (answer !== replace) return [];
    report = await write(true);
  }
  if (report.status === "cancelled") return [];
  if (report.failure) throw new JobError(report.failure);
  const files = report.pictures.map((p) => join(folder.fsPath, p.file));
  const show = vscode.l10n.t("Show");
  void vscode.window
    .showInformationMessage(
      vscode.l10n.t("Frame {0} is written: {1}", frame, report.pictures.map((p) => p.file).join(", ")),
      show,
    )
    .then((answer) =>
      answer === show && files[0]
        ? vscode.commands.executeCommand("revealFileInOS", vscode.Uri.file(files[0]))
        : undefined,
    );
  return files;
}
