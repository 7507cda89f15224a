/** The command that draws a contact sheet. */
import { basename, extname } from "node:path";
import * as vscode from "vscode";
import { unknownField } from "../../work/contact/contact-fields.ts";
import { contactRoll } from "../../work/contact/contact-roll.ts";
import { CONTACT_TYPES, contactType } from "../../work/contact/contact-type.ts";
import type { Pool } from "../../work/pool/pool.ts";
import type { EditorServices } from "../services.ts";
import { setting } from "../settings.ts";
import { proposeIgnoring } from "./git-ignore.ts";
import { askRejected } from "./rejected-frames.ts";
import { loadValidRoll } from "./valid-roll.ts";
import { withProgress } from "./with-progress.ts";

const ENDINGS = Object.keys(CONTACT_TYPES).map((ending) => ending.slice(1));

/** The command: asks for a file beside the recipe and draws all frames of the roll on one sheet. */
export async function contactSheet(given: unknown, services: EditorServices, pool: Pool): Promise<void> {
  const { log } = services;
  const found = await loadValidRoll(given, services);
  if (!found) return;
  const { uri, name, reading, workspace } = found;
  const which = await askRejected(reading.resolved, vscode.l10n.t("Contact sheet of {0}", name));
  if (!which) return;
  const stem = basename(uri.path).replace(/\.roll\.ya?ml$/i, "");
  const target = await vscode.window.showSaveDialog({
    title: vscode.l10n.t("Contact sheet of {0}", name),
    defaultUri: vscode.Uri.joinPath(uri, "..", `${stem}-contact.jpg`),
    filters: {
      [vscode.l10n.t("Pictures")]: ENDINGS.filter((ending) => ending !== "pdf"),
      [vscode.l10n.t("Pages to print (PDF)")]: ["pdf"],
    },
    saveLabel: vscode.l10n.t("Draw"),
  });
  if (!target) return;
  const type = contactType(target.path);
  if (!type)
    return void vscode.window.showErrorMessage(
      vscode.l10n.t(
        "A contact sheet ends in {0}, not “{1}”.",
        Object.keys(CONTACT_TYPES).join(", "),
        extname(target.path) || basename(target.path),
      ),
    );
  // The dialog has asked before it gave a name that is taken; scans and recipes are never replaced all the same.
  const fields = setting("contactSheet.fields", uri).filter((name) => unknownField([name]) === undefined);
  const options = {
    file: target.fsPath,
    type,
    paper: setting("contactSheet.paper", uri),
    ...(fields.length > 0 ? { fields } : {}),
    overwrite: true,
    ...which,
  };
  const report = await withProgress(vscode.l10n.t("Drawing the contact sheet of {0}", name), log, (hooks) =>
    contactRoll(reading.resolved, workspace, pool, options, hooks),
  );
  if (!report) return;
  for (const { frame, message } of report.failures) log.warn(`${name}, frame ${frame}: ${message}`);
  const shown = vscode.workspace.asRelativePath(target);
  const message =
    report.failures.length === 0
      ? vscode.l10n.t("{0} is written: {1} × {2} pixels.", shown, report.width, report.height)
      : vscode.l10n.t(
          "{0} is written; {1} frames could not be shown, and their fields say why.",
          shown,
          report.failures.length,
        );
  const open = vscode.l10n.t("Open");
  void vscode.window.showInformationMessage(message, open).then((answer) => {
    if (answer === open) void vscode.commands.executeCommand("vscode.open", target);
  });
  await proposeIgnoring(vscode.Uri.joinPath(target, "..").fsPath, [basename(target.fsPath)], log);
}
