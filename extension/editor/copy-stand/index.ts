/** Registers the copy stand: its command and its panel. */
import { existsSync, statSync } from "node:fs";
import * as vscode from "vscode";
import type { Pool } from "../../work/pool/pool.ts";
import { askRoll } from "../new-roll/ask-roll.ts";
import type { EditorServices } from "../services.ts";
import { targetOf } from "../targets.ts";
import type { StandPlaces } from "./page.ts";
import { CopyStandPanel } from "./panel.ts";

const VIEW = "rollbook.copyStand";

/**
 * The copy stand: watches the folder that scans arrive in, and judges each. The command `rollbook.copyStand` takes a
 * roll's address or a row of the Rolls view and goes on with that roll; else it goes on with the open roll, or asks for
 * stock, folder and name of a new one. Given an object of places (folder, roll, stock), it asks nothing.
 */
export function registerCopyStand(
  context: vscode.ExtensionContext,
  services: EditorServices,
  pool: Pool,
): vscode.Disposable {
  const panels = new Map<string, CopyStandPanel>();

  function adopt(panel: vscode.WebviewPanel, places: StandPlaces): void {
    const stand = new CopyStandPanel(panel, places, services, pool, context);
    panels.set(places.folder, stand);
    panel.iconPath = vscode.Uri.joinPath(context.extensionUri, "extension", "editor", "media", "icon.png");
    panel.onDidDispose(() => {
      if (panels.get(places.folder) === stand) panels.delete(places.folder);
      stand.dispose();
    });
  }

  async function open(target?: unknown): Promise<void> {
    if (!vscode.workspace.isTrusted)
      return void vscode.window.showErrorMessage(
        vscode.l10n.t("No scans are decoded in restricted mode. Trust this workspace to judge them."),
      );
    const places = placesIn(target) ?? (await ofRoll(target, services)) ?? (await ofNewRoll(services));
    if (!places) return;
    const known = panels.get(places.folder);
    if (known) return known.reveal();
    const title = vscode.l10n.t("Copy Stand");
    adopt(vscode.window.createWebviewPanel(VIEW, title, vscode.ViewColumn.Beside), places);
  }

  return vscode.Disposable.from(
    vscode.commands.registerCommand("rollbook.copyStand", open),
    vscode.window.registerWebviewPanelSerializer(VIEW, {
      deserializeWebviewPanel(panel, state: unknown) {
        const places = placesIn((state as { places?: unknown } | undefined)?.places);
        if (places && existsSync(places.folder) && !panels.has(places.folder)) adopt(panel, places);
        else panel.dispose();
        return Promise.resolve();
      },
    }),
    new vscode.Disposable(() => {
      for (const stand of panels.values()) stand.dispose();
    }),
  );
}

function placesIn(value: unknown): StandPlaces | undefined {
  const { folder, roll, stock } = (value ?? {}) as Record<string, unknown>;
  if (typeof folder !== "string") return undefined;
  return {
    folder,
    ...(typeof roll === "string" ? { roll } : {}),
    ...(typeof stock === "string" ? { stock } : {}),
  };
}

/** The roll that the command was called for, or that is open; its folder of scans is watched. */
async function ofRoll(target: unknown, { recipes }: EditorServices): Promise<StandPlaces | undefined> {
  const uri = targetOf(target).uri ?? vscode.window.activeTextEditor?.document.uri;
  if (!uri || uri.scheme !== "file" || !/\.roll\.ya?ml$/i.test(uri.path)) return undefined;
  const { resolved } = await recipes.read(await vscode.workspace.openTextDocument(uri));
  const folder = vscode.Uri.file(resolved.scans).fsPath;
  if (existsSync(folder) && !statSync(folder).isDirectory()) return undefined;
  return { folder, roll: uri.fsPath };
}

async function ofNewRoll(services: EditorServices): Promise<StandPlaces | undefined> {
  const options = await askRoll(vscode.l10n.t("Copy Stand"), services);
  if (!options) return undefined;
  const { scans, roll, stock } = options;
  return { folder: scans.fsPath, roll: roll.fsPath, ...(stock ? { stock: stock.fsPath } : {}) };
}
