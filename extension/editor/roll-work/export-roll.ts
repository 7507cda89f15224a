/** Export of a whole roll, or of frames of it: every picture that the recipe's output names. */
import * as vscode from "vscode";
import type { ResolvedOutput, ResolvedRoll } from "../../recipe/resolve/resolve.ts";
import type { Workspace } from "../../work/files/workspace.ts";
import type { Pool } from "../../work/pool/pool.ts";
import { framesToWrite } from "../../work/frame/select-frames.ts";
import { type FrameReport, type RenderHooks, renderRoll } from "../../work/render/render-roll.ts";
import type { EditorServices } from "../services.ts";
import { proposeIgnoring } from "./git-ignore.ts";
import { askOutputFolder } from "./output-folder.ts";
import { askRejected } from "./rejected-frames.ts";
import { loadValidRoll } from "./valid-roll.ts";
import { withProgress } from "./with-progress.ts";

/** The command: asks for outputs, where there are several, and for a folder; then writes every frame that is not skipped. */
export async function exportRoll(
  given: unknown,
  services: EditorServices,
  pool: Pool,
  memory: vscode.Memento,
): Promise<void> {
  const { log } = services;
  const found = await loadValidRoll(given, services);
  if (!found) return;
  const { uri, name, reading, workspace } = found;
  const roll = reading.resolved;
  const which = await askRejected(roll, vscode.l10n.t("Export roll"));
  if (!which) return;
  const frames = framesToWrite(roll, which).map(({ id }) => id);
  if (frames.length === 0)
    return void vscode.window.showInformationMessage(vscode.l10n.t("{0} has no frame to export.", name));
  const outputs = await askOutputs(roll);
  if (!outputs) return;
  const title = vscode.l10n.t("Export {0}: one folder for each output is made here", name);
  const folder = await askOutputFolder(uri, memory, title);
  if (folder === undefined) return;
  const reports = await withProgress(vscode.l10n.t("Exporting {0}", name), log, (hooks) =>
    exportFrames({ roll, workspace, frames, outputs, directory: folder }, pool, hooks),
  );
  if (!reports) return;
  reportExport(reports, name, folder, log);
  const files = reports.flatMap(({ pictures }) => pictures.map(({ file }) => file));
  await proposeIgnoring(folder, files, log);
}

async function askOutputs({ outputs }: ResolvedRoll): Promise<readonly ResolvedOutput[] | undefined> {
  if (outputs.length < 2) return outputs;
  const chosen = await vscode.window.showQuickPick(
    outputs.map((output) => ({
      label: output.name,
      description: output.print ? vscode.l10n.t("{0}, a sheet to print", output.type) : output.type,
      picked: true,
      output,
    })),
    { canPickMany: true, title: vscode.l10n.t("Export roll"), placeHolder: vscode.l10n.t("Which of the outputs") },
  );
  return chosen?.length ? chosen.map(({ output }) => output) : undefined;
}

export interface ExportOrder {
  readonly roll: ResolvedRoll;
  readonly workspace: Workspace;
  readonly frames: readonly string[];
  readonly outputs: readonly ResolvedOutput[];
  readonly directory: string;
}

/** Renders frames; asks once where pictures lie in the way that this roll did not write, and writes those frames again. */
export async function exportFrames(order: ExportOrder, pool: Pool, hooks: RenderHooks): Promise<FrameReport[]> {
  const { roll, workspace, frames, outputs, directory } = order;
  const write = (ids: readonly string[], overwrite: boolean): Promise<FrameReport[]> =>
    renderRoll(roll, workspace, pool, { frames: ids, outputs, directory, overwrite, resume: false }, hooks);
  const reports = await write(frames, false);
  const inTheWay = reports.filter(({ failure }) => failure?.code === "exists").map(({ frame }) => frame);
  if (inTheWay.length === 0) return reports;
  const replace = vscode.l10n.t("Replace");
  const message =
    inTheWay.length === 1
      ? vscode.l10n.t(
          "There are pictures of frame {0} in this folder that this roll did not write, or that were changed since.",
          inTheWay[0]!,
        )
      : vscode.l10n.t(
          "There are pictures of {0} frames in this folder that this roll did not write, or that were changed since.",
          inTheWay.length,
        );
  const answer = await vscode.window.showWarningMessage(message, { modal: true }, replace);
  const again = new Map(
    (answer === replace ? await write(inTheWay, true) : []).map((report) => [report.frame, report]),
  );
  const declined = { status: "cancelled", pictures: [], warnings: [] } as const;
  return reports.map((report) =>
    report.failure?.code === "exists" ? (again.get(report.frame) ?? { ...declined, frame: report.frame }) : report,
  );
}

/** Says how an export of several frames ended, and logs what was noticed. */
export function reportExport(
  reports: readonly FrameReport[],
  name: string,
  folder: string,
  log: vscode.LogOutputChannel,
): void {
  const count = (status: FrameReport["status"]): number => reports.filter((report) => report.status === status).length;
  for (const { frame, warnings, failure } of reports) {
    for (const warning of warnings) log.warn(`${name}, frame ${frame}: ${warning}`);
    if (failure && failure.code !== "cancelled") log.error(`${name}, frame ${frame}: ${failure.message}`);
  }
  const failed = count("failed");
  const parts = [
    count("written") === 1
      ? vscode.l10n.t("1 frame of {0} is written.", name)
      : vscode.l10n.t("{0} frames of {1} are written.", count("written"), name),
    ...(failed > 0
      ? [
          vscode.l10n.t(
            "{0} failed: {1}",
            failed,
            reports.find(({ status }) => status === "failed")?.failure?.message ?? "",
          ),
        ]
      : []),
    ...(count("cancelled") > 0 ? [vscode.l10n.t("{0} were not begun.", count("cancelled"))] : []),
  ];
  const [show, showLog] = [vscode.l10n.t("Show"), vscode.l10n.t("Show log")];
  const isLogged = failed > 0 || reports.some(({ warnings }) => warnings.length > 0);
  const say = failed > 0 ? vscode.window.showWarningMessage : vscode.window.showInformationMessage;
  void say(parts.join(" "), show, ...(isLogged ? [showLog] : [])).then((answer) => {
    if (answer === show) void vscode.commands.executeCommand("revealFileInOS", vscode.Uri.file(folder));
    if (answer === showLog) log.show();
  });
}
