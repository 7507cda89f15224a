/** The command that locks a roll's scans. */
import * as vscode from "vscode";
import { fingerprintScans } from "../../work/files/fingerprint-scans.ts";
import type { Pool } from "../../work/pool/pool.ts";
import type { EditorServices } from "../services.ts";
import { writeValues } from "./recipe-edits.ts";
import { loadValidRoll } from "./valid-roll.ts";
import { withProgress } from "./with-progress.ts";

/** The command: writes size and SHA-256 of every scan into the recipe. From then on other files are refused. */
export async function lockScans(given: unknown, services: EditorServices, pool: Pool): Promise<void> {
  const { log } = services;
  const found = await loadValidRoll(given, services);
  if (!found) return;
  const { uri, name, reading, workspace } = found;
  const read = await withProgress(vscode.l10n.t("Reading the scans of {0}", name), log, (hooks) =>
    fingerprintScans(reading.resolved, workspace, pool, hooks),
  );
  if (!read) return;
  const { fingerprints, missing, total } = read;
  for (const { message } of missing) log.error(`${name}: ${message}`);
  if (missing.length > 0)
    return void vscode.window.showErrorMessage(
      vscode.l10n.t(
        "{0} was not locked: {1} of {2} scans cannot be read. {3}",
        name,
        missing.length,
        total,
        missing[0]!.message,
      ),
    );
  if (await writeValues(uri, [{ path: ["fingerprints"], value: fingerprints }], services))
    void vscode.window.showInformationMessage(
      vscode.l10n.t("{0} scans of {1} are locked. Pictures are made from exactly these files.", total, name),
    );
}
