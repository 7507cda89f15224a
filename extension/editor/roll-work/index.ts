/** Work on a whole roll from the editor: export, contact sheet, locking its scans, joins, the lens, shooting notes, calibration, a stock made from it. */
import * as vscode from "vscode";
import type { Pool } from "../../work/pool/pool.ts";
import type { EditorServices } from "../services.ts";
import { calibrate } from "./calibrate.ts";
import { contactSheet } from "./contact-sheet.ts";
import { exportRoll } from "./export-roll.ts";
import { writeStock } from "./stock-from-roll.ts";
import { lockScans } from "./lock-scans.ts";
import { shootingNotes } from "./shooting-notes.ts";
import { measureJoins } from "./measure-joins.ts";
import { measureLensFaults } from "./measure-lens.ts";

export function registerRollWork(
  context: vscode.ExtensionContext,
  services: EditorServices,
  pool: Pool,
): vscode.Disposable {
  const register = vscode.commands.registerCommand;
  return vscode.Disposable.from(
    register("rollbook.exportRoll", (given?: unknown) => exportRoll(given, services, pool, context.workspaceState)),
    register("rollbook.contactSheet", (given?: unknown) => contactSheet(given, services, pool)),
    register("rollbook.lockScans", (given?: unknown) => lockScans(given, services, pool)),
    register("rollbook.measureJoins", (given?: unknown) => measureJoins(given, services, pool)),
    register("rollbook.measureLens", (given?: unknown) => measureLensFaults(given, services, pool)),
    register("rollbook.calibrate", (given?: unknown) => calibrate(given, services, pool)),
    register("rollbook.shootingNotes", (given?: unknown) => shootingNotes(given, services)),
    register("rollbook.writeStock", (given?: unknown) => writeStock(given, services)),
  );
}
