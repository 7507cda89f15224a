/** The command that measures the faults of the copy lens. */
import * as vscode from "vscode";
import { lensEdits, type LensReport, measureLens } from "../../work/lens/measure-lens.ts";
import type { Pool } from "../../work/pool/pool.ts";
import type { EditorServices } from "../services.ts";
import { writeValues } from "./recipe-edits.ts";
import { loadValidRoll } from "./valid-roll.ts";
import { withProgress } from "./with-progress.ts";

/** The command: measures the lens on the roll's own scans, and writes what is sure into the recipe. */
export async function measureLensFaults(given: unknown, services: EditorServices, pool: Pool): Promise<void> {
  const { log } = services;
  const found = await loadValidRoll(given, services);
  if (!found) return;
  const { uri, name, reading, workspace } = found;
  const report = await withProgress(vscode.l10n.t("Measuring the lens of {0}", name), log, (hooks) =>
    measureLens(reading.resolved, workspace, pool, hooks),
  );
  if (!report) return;
  for (const { frame, message } of report.failures) log.error(`${name}, frame ${frame}: ${message}`);
  const edits = lensEdits(report);
  const measured = measuredText(report);
  const isKnown = report.lateral?.sure && report.distortion?.sure && (report.blank || report.falloff?.sure);
  if (edits.length === 0 && isKnown)
    return void vscode.window.showInformationMessage(
      `${measured} ${vscode.l10n.t("That is too small to be corrected.")}`,
    );
  if (edits.length === 0) {
    const missing = vscode.l10n.t("Frames with more detail, and with rebate around the pictures, are needed.");
    return void vscode.window.showWarningMessage(`${measured} ${missing}`);
  }
  if (!(await writeValues(uri, edits, services))) return;
  const written = `${measured} ${vscode.l10n.t("Written to light.lens.")}`;
  if (report.joins.length === 0) return void vscode.window.showInformationMessage(written);
  const again = vscode.l10n.t("Measure Joins");
  const stale = vscode.l10n.t("Joins were measured without this distortion and have to be measured again.");
  if ((await vscode.window.showWarningMessage(`${written} ${stale}`, again)) === again)
    await vscode.commands.executeCommand("rollbook.measureJoins", uri);
}

/** What was measured, and what is not sure enough to be written. */
function measuredText({ lateral, distortion, falloff, blank }: LensReport): string {
  const parts: string[] = [];
  if (!lateral) parts.push(vscode.l10n.t("Lateral colour cannot be measured on these scans."));
  else {
    const shifts = [lateral.red.shift, lateral.blue.shift].map((shift) => shift.toFixed(2));
    parts.push(
      lateral.sure
        ? vscode.l10n.t("Lateral colour in the corner: red {0} px, blue {1} px.", ...shifts)
        : vscode.l10n.t("Lateral colour in the corner: red {0} px, blue {1} px (not sure).", ...shifts),
    );
  }
  if (!distortion) parts.push(vscode.l10n.t("Distortion cannot be measured: the pictures’ edges are not in view."));
  else {
    const corner = (100 * distortion.corner).toFixed(2);
    parts.push(
      distortion.sure
        ? vscode.l10n.t("Distortion in the corner: {0} %.", corner)
        : vscode.l10n.t("Distortion in the corner: {0} % (not sure).", corner),
    );
  }
  if (!blank) parts.push(falloffText(falloff));
  return parts.join(" ");
}

function falloffText(falloff: LensReport["falloff"]): string {
  if (!falloff) return vscode.l10n.t("Falloff cannot be measured: too little clear film is in view.");
  const span = falloff.span.toFixed(2);
  return falloff.sure
    ? vscode.l10n.t("Falloff over the scan: {0} EV.", span)
    : vscode.l10n.t("Falloff over the scan: {0} EV (not sure).", span);
}
