/** Writes one frame as the recipe says, into a folder that the person chooses. */
import { join } from "node:path";
import * as vscode from "vscode";
import type { Pool } from "../../work/pool/pool.ts";
import { JobError } from "../../failure.ts";
import { exportFrames, reportExport } from "../roll-work/export-roll.ts";
import { proposeIgnoring } from "../roll-work/git-ignore.ts";
import { askOutputFolder } from "../roll-work/output-folder.ts";
import { withProgress } from "../roll-work/with-progress.ts";
import type { RollPlace } from "./pictures.ts";

export interface ExportTools {
  readonly pool: Pool;
  readonly memory: vscode.Memento;
  readonly log: vscode.LogOutputChannel;
}

/**
 * Asks for a folder and writes the outputs of some frames into it, with progress and a way to stop.
 * @returns the written files
 * @throws JobError where the one frame that was asked for failed
 */
export async function exportChosen(
  { roll, workspace }: RollPlace,
  uri: vscode.Uri,
  frames: readonly string[],
  { pool, memory, log }: ExportTools,
): Promise<readonly string[]> {
  const [frame, ...others] = frames;
  if (frame === undefined) return [];
  const name = vscode.workspace.asRelativePath(uri);
  const single = others.length === 0;
  const directory = await askOutputFolder(
    uri,
    memory,
    single
      ? vscode.l10n.t("Export frame {0}: one folder for each output is made here", frame)
      : vscode.l10n.t("Export {0} frames: one folder for each output is made here", frames.length),
  );
  if (directory === undefined) return [];
  const order = { roll, workspace, frames, outputs: roll.outputs, directory };
  const title = single
    ? vscode.l10n.t("Exporting frame {0}", frame)
    : vscode.l10n.t("Exporting {0} frames", frames.length);
  const reports = await withProgress(title, log, (hooks) => exportFrames(order, pool, hooks));
  if (!reports) return [];
  const written = reports.flatMap(({ pictures }) => pictures.map(({ file }) => file));
  if (single) {
    const [report] = reports;
    if (!report || report.status === "cancelled") return [];
    if (report.failure) throw new JobError(report.failure);
    reportFrame(frame, written, directory);
  } else reportExport(reports, name, directory, log);
  void proposeIgnoring(directory, written, log);
  return written.map((file) => join(directory, file));
}

function reportFrame(frame: string, written: readonly string[], directory: string): void {
  const show = vscode.l10n.t("Show");
  void vscode.window
    .showInformationMessage(vscode.l10n.t("Frame {0} is written: {1}", frame, written.join(", ")), show)
    .then((answer) =>
      answer === show && written[0]
        ? vscode.commands.executeCommand("revealFileInOS", vscode.Uri.file(join(directory, written[0])))
        : undefined,
    );
}
