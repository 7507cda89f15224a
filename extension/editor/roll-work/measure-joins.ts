/** The command that measures joins. */
import * as vscode from "vscode";
import { joinEdits, joinFrames } from "../../work/frame/join/join-frames.ts";
import type { Pool } from "../../work/pool/pool.ts";
import type { EditorServices } from "../services.ts";
import { writeValues } from "./recipe-edits.ts";
import { loadValidRoll } from "./valid-roll.ts";
import { withProgress } from "./with-progress.ts";

/** The command: measures how the scans of large frames lie to one another, and writes it into the recipe. */
export async function measureJoins(given: unknown, services: EditorServices, pool: Pool): Promise<void> {
  const { log } = services;
  const found = await loadValidRoll(given, services);
  if (!found) return;
  const { uri, name, reading, workspace } = found;
  const large = reading.resolved.frames.filter(({ scans, merged, skip }) => scans.length > 1 && !merged && !skip);
  if (large.length === 0)
    return void vscode.window.showInformationMessage(
      vscode.l10n.t("No frame of {0} names several scans, so there is nothing to join.", name),
    );
  const again = large.every(({ join }) => join !== undefined);
  if (again && !(await wantsAgain(large.length))) return;
  const frames = await withProgress(vscode.l10n.t("Measuring the joins of {0}", name), log, (hooks) =>
    joinFrames(reading.resolved, workspace, pool, { again }, hooks),
  );
  if (!frames) return;
  const failed = frames.filter(({ problem }) => problem !== undefined);
  for (const { frame, problem } of failed) log.error(`${name}, frame ${frame}: ${problem}`);
  const edits = joinEdits(frames);
  if (edits.length > 0 && !(await writeValues(uri, edits, services))) return;
  const worst = Math.max(0, ...frames.map(({ residual }) => residual ?? 0)).toFixed(2);
  const done = vscode.l10n.t("Joins of {0} frames are written; the worst is off by {1} px.", edits.length, worst);
  if (failed.length === 0) return void vscode.window.showInformationMessage(done);
  const first = `${failed[0]!.frame}: ${failed[0]!.problem}`;
  const message = vscode.l10n.t("{0} frames could not be joined. Frame {1}", failed.length, first);
  void vscode.window.showWarningMessage(edits.length > 0 ? `${done} ${message}` : message);
}

async function wantsAgain(count: number): Promise<boolean> {
  const again = vscode.l10n.t("Measure again");
  const message = vscode.l10n.t("All {0} frames with several scans have their joins already.", count);
  return (await vscode.window.showInformationMessage(message, { modal: true }, again)) === again;
}
