/** Registers the roll sheet and its commands in VS Code. */
import * as vscode from "vscode";
import type { PanelKind, PanelTools } from "../preview/roll-panel.ts";
import { RollPanels } from "../preview/roll-panels.ts";
import { rollPage } from "../preview/page.ts";
import { SheetPanel } from "./sheet-panel.ts";

const SHEET: PanelKind = {
  view: "rollbook.sheet",
  column: vscode.ViewColumn.Active,
  title: (file) => vscode.l10n.t("Sheet {0}", file),
  page: (webview, dist, document, kept) =>
    rollPage(webview, dist, { name: "sheet", document, kept, workers: { "tile-worker": "tile-worker.js" } }),
};

/**
 * The roll sheet: the command `rollbook.openSheet` (recipe, frame; both may be left out) shows all frames of a roll as
 * positives. One panel a roll; it comes back after a reload of the window.
 */
export function registerSheet(tools: PanelTools): vscode.Disposable {
  const panels = new RollPanels(
    SHEET,
    tools,
    (document, panel, start) => new SheetPanel(SHEET, document, panel, tools, start),
  );
  return vscode.Disposable.from(
    panels,
    vscode.commands.registerCommand("rollbook.openSheet", (uri?: unknown, frame?: unknown) => panels.open(uri, frame)),
  );
}
