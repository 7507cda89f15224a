import { join } from "node:path";
import * as vscode from "vscode";
import type { Pool } from "../../work/pool/pool.ts";
import { JobError } from "../../failure.ts";
import { exportFrames } from "../roll-work/export-roll.ts";
import { proposeIgnoring } from "../roll-work/git-ignore.ts";
import { askOutputFolder } from "../roll-work/output-folder.ts";
import { withProgress } from "../roll-work/with-progress.ts";
import type { RollPlace } from "./pictures.ts";

export interface ExportTools {
  readonly pool: Pool;
  readonly memory: vscode.Memento;
  readonly log: vscode.LogOutputChannel;
}

/** Asks for a folder and writes a frame's outputs into it, with progress and a way to stop. @returns the written files */
export async function exportFrame(
  { roll, workspace }: RollPlace,
  uri: vscode.Uri,
  frame: string,
  { pool, memory, log }: ExportTools,
): Promise<readonly string[]> {
  const title = vscode.l10n.t("Export frame {0}: one folder for each output is made here", frame);
  const directory = await askOutputFolder(uri, memory, title);
  if (directory === undefined) return [];
  const order = { roll, workspace, frames: [frame], outputs: roll.outputs, directory };
  const reports = await withProgress(vscode.l10n.t("Exporting frame {0}", frame), log, (hooks) =>
    exportFrames(order, pool, hooks),
  );
  const report = reports?.[0];
  if (!report || report.status === "cancelled") return [];
  if (report.failure) throw new JobError(report.failure);
  const written = report.pictures.map(({ file }) => file);
  const files = written.map((file) => join(directory, file));
  const show = vscode.l10n.t("Show");
  void vscode.window
    .showInformationMessage(vscode.l10n.t("Frame {0} is written: {1}", frame, written.join(", ")), show)
    .then((answer) =>
      answer === show && files[0]
        ? vscode.commands.executeCommand("revealFileInOS", vscode.Uri.file(files[0]))
        : undefined,
    );
  void proposeIgnoring(directory, written, log);
  return files;
}
