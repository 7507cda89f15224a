/** Registers the preview and its commands in VS Code. */
import * as vscode from "vscode";
import type { Pool } from "../../work/pool/pool.ts";
import { PanelMemory } from "../panels/panel-memory.ts";
import type { EditorServices } from "../services.ts";
import { setting } from "../settings.ts";
import { makePictures } from "./pictures.ts";
import { previewPage } from "./page.ts";
import { type PanelKind, type PanelTools, RollPanel } from "./roll-panel.ts";
import { RollPanels } from "./roll-panels.ts";

const PREVIEW: PanelKind = {
  view: "rollbook.preview",
  column: vscode.ViewColumn.Beside,
  follows: true,
  title: (file) => vscode.l10n.t("Preview {0}", file),
  page: previewPage,
};

/** What panels over a roll use; they share measured lights and kept proxies. */
export function makePanelTools(context: vscode.ExtensionContext, services: EditorServices, pool: Pool): PanelTools {
  const folder = vscode.Uri.joinPath(context.globalStorageUri, "proxies").fsPath;
  const pictures = makePictures(pool, { folder, maxBytes: setting("preview.cacheSize") * 1e6 });
  return { services, pool, pictures, memory: new PanelMemory(context.storageUri?.fsPath), context };
}

/**
 * The live preview: the command `rollbook.openPreview` (recipe, frame; both may be left out) opens it beside the text. One
 * panel a roll; it comes back after a reload of the window. A panel that is not locked shows the roll whose text is in
 * front: `rollbook.lockPreview` holds the active one at its roll, `rollbook.unlockPreview` lets it follow again.
 */
export function registerPreview(tools: PanelTools): vscode.Disposable {
  const panels = new RollPanels(
    PREVIEW,
    tools,
    (document, panel, start) => new RollPanel(PREVIEW, document, panel, tools, start),
  );
  return vscode.Disposable.from(
    panels,
    vscode.commands.registerCommand("rollbook.openPreview", (uri?: unknown, frame?: unknown) =>
      panels.open(uri, frame),
    ),
    vscode.commands.registerCommand("rollbook.lockPreview", () => panels.lock(true)),
    vscode.commands.registerCommand("rollbook.unlockPreview", () => panels.lock(false)),
  );
}
