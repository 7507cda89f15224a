/** Runs a survey from the editor, with progress, and keeps its report. */
import * as vscode from "vscode";
import type { Reading } from "../../recipe/language/document-cache.ts";
import { blanksOf } from "../../recipe/resolve/channels.ts";
import type { Pool } from "../../work/pool/pool.ts";
import { type SurveyReport, surveyRoll } from "../../work/survey/survey-roll.ts";
import { openWorkspace } from "../../work/files/workspace.ts";
import type { EditorServices } from "../services.ts";
import { withProgress } from "../roll-work/with-progress.ts";
import { fileOf } from "../uris.ts";
import { stampsOf } from "../files.ts";

/** Surveys that are under way, by the roll's file. */
const running = new Set<string>();

/**
 * Surveys a roll's scans in the pool's process, with progress and a way to stop, and keeps what was found.
 * @returns undefined where it was stopped, refused or failed; the person has been told why
 */
export async function surveyScans(
  uri: vscode.Uri,
  { recipes, surveys, log }: EditorServices,
  pool: Pool,
): Promise<SurveyReport | undefined> {
  const roll = fileOf(uri);
  const name = vscode.workspace.asRelativePath(uri);
  if (running.has(roll)) {
    void vscode.window.showInformationMessage(vscode.l10n.t("The scans of {0} are being surveyed already.", name));
    return undefined;
  }
  running.add(roll);
  const title = vscode.l10n.t("Surveying the scans of {0}", name);
  try {
    return await withProgress(title, log, async ({ signal, onProgress }) => {
      const reading = await recipes.read(await vscode.workspace.openTextDocument(uri));
      const problem = problemOf(reading);
      if (problem !== undefined) {
        void showProblem(problem, uri);
        return undefined;
      }
      const folder = vscode.workspace.getWorkspaceFolder(uri)?.uri ?? vscode.Uri.joinPath(uri, "..");
      // Taken before anything is measured: a scan that is replaced meanwhile is then known to have changed.
      const stamps = await stampsOf(filesOf(reading));
      const report = await surveyRoll(
        reading.resolved,
        openWorkspace(folder.fsPath),
        pool,
        {},
        {
          signal,
          onProgress: (done, total, frame) =>
            onProgress(done, total, vscode.l10n.t("frame {0}, {1} of {2}", frame, done, total)),
        },
      );
      for (const { frame, message } of report.failures)
        log.warn(frame === undefined ? `${name}: ${message}` : `${name}, frame ${frame}: ${message}`);
      await surveys.keep(roll, { report, stamps });
      return report;
    });
  } finally {
    running.delete(roll);
  }
}

/** Why a roll cannot be surveyed, as a sentence. */
function problemOf({ document, resolved, problems }: Reading): string | undefined {
  if (problems.some(({ severity }) => severity === "error"))
    return vscode.l10n.t("The recipe has errors. Fix them, then survey its scans.");
  if (resolved.frames.every(({ skip, scans }) => skip || scans.length === 0))
    return vscode.l10n.t("{0} names no scans to survey.", vscode.workspace.asRelativePath(document.file));
  return undefined;
}

async function showProblem(problem: string, uri: vscode.Uri): Promise<void> {
  const show = vscode.l10n.t("Show problems");
  if ((await vscode.window.showErrorMessage(problem, show)) !== show) return;
  await vscode.window.showTextDocument(uri);
  await vscode.commands.executeCommand("workbench.actions.view.problems");
}

function filesOf({ resolved }: Reading): string[] {
  const scans = resolved.frames.filter(({ skip }) => !skip).flatMap((frame) => frame.scans);
  return [...scans, ...blanksOf(resolved.shared.light)].map(({ path }) => path);
}
