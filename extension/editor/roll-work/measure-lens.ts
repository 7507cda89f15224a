/** The command that measures the faults of the copy lens. */
import * as vscode from "vscode";
import { lensEdits, measureLens } from "../../work/lens/measure-lens.ts";
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
  const { lateral, scans } = report;
  if (!lateral)
    return void vscode.window.showWarningMessage(
      vscode.l10n.t("The scans of {0} show too little detail to measure lateral colour.", name),
    );
  const shifts = [lateral.red.shift, lateral.blue.shift].map((shift) => shift.toFixed(2));
  const measured = vscode.l10n.t(
    "Lateral colour in the corner: red {0} px, blue {1} px, by {2} scans.",
    ...shifts,
    scans.length,
  );
  if (!lateral.sure)
    return void vscode.window.showWarningMessage(
      `${measured} ${vscode.l10n.t("That is not sure enough to be written; frames with more detail are needed.")}`,
    );
  if (!(await writeValues(uri, lensEdits(report), services))) return;
  void vscode.window.showInformationMessage(`${measured} ${vscode.l10n.t("Written to light.lens.")}`);
}
