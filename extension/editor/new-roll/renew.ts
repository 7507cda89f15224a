/** "Renew Automatic Values…": finds them again, shows what changes and what is kept, and edits the recipe once. */
import * as vscode from "vscode";
import { parseRecipe } from "../../recipe/problems/document.ts";
import { loadDocument } from "../../recipe/resolve/workspace.ts";
import { openWorkspace } from "../../work/files/workspace.ts";
import { GROUPS, type Group } from "../../work/new-roll/renew/automatic-values.ts";
import { type KeptItem, type Renewal, type RenewalItem, renewRoll } from "../../work/new-roll/renew/renew-roll.ts";
import { renewalChanges } from "../../work/new-roll/renew/renewal-text.ts";
import { unitName, valueText } from "../../work/new-roll/renew/value-text.ts";
import type { Pool } from "../../work/pool/pool.ts";
import type { EditorServices } from "../services.ts";
import { withProgress } from "../roll-work/with-progress.ts";
import { targetUri } from "../panels/active-roll.ts";
import { workspaceRoot } from "./ask-roll.ts";

export function registerRenew(services: EditorServices, pool: Pool): vscode.Disposable {
  return vscode.commands.registerCommand("rollbook.renewAutomaticValues", async (target?: unknown) => {
    const uri = targetUri(target);
    if (!uri || !/\.roll\.ya?ml$/i.test(uri.path)) {
      void vscode.window.showInformationMessage(
        vscode.l10n.t("Open a roll first: a file whose name ends in .roll.yaml."),
      );
      return;
    }
    const root = workspaceRoot(uri);
    const groups = root && (await askGroups());
    if (!root || !groups || groups.length === 0) return;
    const document = await vscode.workspace.openTextDocument(uri);
    const text = document.getText();
    const workspace = openWorkspace(root.fsPath);
    const roll = parseRecipe(text, { file: workspace.inside(uri.fsPath) });
    const title = vscode.l10n.t("Looking through the scans");
    const renewal = await withProgress(title, services.log, async (hooks) => {
      const loaded = await loadDocument(roll, workspace);
      return renewRoll(loaded, { groups, overwrite: false }, workspace, pool, hooks);
    });
    if (renewal) await offer(renewal, document, text, services);
  });
}

async function askGroups(): Promise<Group[] | undefined> {
  const about: Readonly<Record<Group, readonly [label: string, detail: string]>> = {
    base: [vscode.l10n.t("Base"), vscode.l10n.t("base, flare, shutter times; a blank that has come since")],
    filtration: [vscode.l10n.t("Filtration"), vscode.l10n.t("filtration; without a stock curve, unmix and colour")],
    exposure: [vscode.l10n.t("Exposure"), vscode.l10n.t("exposure of each frame; contrast, toe and shoulder")],
    area: [vscode.l10n.t("Area"), vscode.l10n.t("rectangle and tilt of each frame")],
  };
  const items = GROUPS.map((group) => ({
    label: about[group][0],
    description: about[group][1],
    picked: true,
    group,
  }));
  const picked = await vscode.window.showQuickPick(items, {
    canPickMany: true,
    ignoreFocusOut: true,
    title: vscode.l10n.t("Renew automatic values"),
    placeHolder: vscode.l10n.t("What is to be found again; what you changed since is kept"),
  });
  return picked?.map(({ group }) => group);
}

type Row = vscode.QuickPickItem & { readonly item?: RenewalItem };

/** Lists what changes, ticked, and what is kept, not ticked; what is ticked in the end is applied as one edit. */
async function offer(
  renewal: Renewal,
  document: vscode.TextDocument,
  text: string,
  { log }: EditorServices,
): Promise<void> {
  const { renewed, kept, warnings, unreadable } = renewal;
  for (const line of [...warnings, ...unreadable.map(({ name, reason }) => `${name}: ${reason}`)]) log.warn(line);
  if (renewed.length + kept.length === 0) {
    void vscode.window.showInformationMessage(vscode.l10n.t("Nothing to renew: all values are as they are found."));
    return;
  }
  const picked = await vscode.window.showQuickPick(rowsOf(renewed, kept), {
    canPickMany: true,
    ignoreFocusOut: true,
    title: vscode.l10n.t("Renew automatic values: {0} change, {1} are kept", renewed.length, kept.length),
    placeHolder: vscode.l10n.t("Enter applies what is ticked; Escape changes nothing"),
  });
  const items = (picked ?? []).flatMap(({ item }) => (item ? [item] : []));
  if (items.length === 0) return;
  if (document.getText() !== text) {
    void vscode.window.showWarningMessage(
      vscode.l10n.t("The recipe was changed meanwhile; nothing was renewed. Run the command again."),
    );
    return;
  }
  const edit = new vscode.WorkspaceEdit();
  for (const change of renewalChanges(text, renewal, items)) {
    const range = new vscode.Range(document.positionAt(change.start), document.positionAt(change.end));
    edit.replace(document.uri, range, change.text);
  }
  await vscode.workspace.applyEdit(edit);
  await vscode.window.showTextDocument(document);
}

function rowsOf(renewed: readonly RenewalItem[], kept: readonly KeptItem[]): Row[] {
  const line = (label: string): Row => ({ label, kind: vscode.QuickPickItemKind.Separator });
  const row = (item: RenewalItem, picked: boolean): Row => ({
    label: unitName(item),
    description: `${valueText(item.before)} → ${valueText(item.after)}`,
    picked,
    item,
  });
  const hasFound = ({ after }: KeptItem): boolean => after.some((value) => value !== undefined);
  const given = kept.filter((item) => !hasFound(item));
  return [
    ...(renewed.length > 0 ? [line(vscode.l10n.t("found otherwise")), ...renewed.map((item) => row(item, true))] : []),
    ...(kept.some(hasFound) ? [line(vscode.l10n.t("kept: changed since"))] : []),
    ...kept.filter(hasFound).map((item) => row(item, false)),
    ...(given.length > 0 ? [line(vscode.l10n.t("kept as it is: {0}", given.map(unitName).join(", ")))] : []),
  ];
}
