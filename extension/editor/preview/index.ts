import * as vscode from "vscode";
import type { Pool } from "../../work/pool/pool.ts";
import { PanelMemory } from "../panels/panel-memory.ts";
import type { EditorServices } from "../services.ts";
import { setting } from "../settings.ts";
import { targetOf } from "../targets.ts";
import { makePictures } from "./pictures.ts";
import { memoryKey, Preview, type PreviewStart, type PreviewTools } from "./preview.ts";

const VIEW = "rollbook.preview";

/**
 * The live preview: the command `rollbook.openPreview` (recipe, frame; both may be left out) opens it beside the text. One
 * panel a roll; it comes back after a reload of the window.
 */
export function registerPreview(
  context: vscode.ExtensionContext,
  services: EditorServices,
  pool: Pool,
): vscode.Disposable {
  const previews = new Map<string, Preview>();
  const folder = vscode.Uri.joinPath(context.globalStorageUri, "proxies").fsPath;
  const pictures = makePictures(pool, { folder, maxBytes: setting("preview.cacheSize") * 1e6 });
  const memory = new PanelMemory(context.storageUri?.fsPath);
  const tools: PreviewTools = { services, pool, pictures, memory, context };

  async function open(target: unknown, frame: unknown): Promise<void> {
    const given = targetOf(target);
    const uri = given.uri ?? vscode.window.activeTextEditor?.document.uri;
    if (!uri || !/\.roll\.ya?ml$/i.test(uri.path)) {
      void vscode.window.showInformationMessage(vscode.l10n.t("Open a roll’s recipe (*.roll.yaml) to preview it."));
      return;
    }
    const id = typeof frame === "string" ? frame : given.frame;
    const known = previews.get(uri.toString());
    if (known) return known.show(id);
    const document = await vscode.workspace.openTextDocument(uri);
    const panel = vscode.window.createWebviewPanel(VIEW, "Rollbook", {
      viewColumn: vscode.ViewColumn.Beside,
      preserveFocus: true,
    });
    adopt(panel, document, { frame: id ?? (await frameUnderCursor(document)) });
  }

  async function frameUnderCursor(document: vscode.TextDocument): Promise<string | undefined> {
    const editor = vscode.window.visibleTextEditors.find((e) => e.document === document);
    if (!editor) return undefined;
    const { document: recipe } = await services.recipes.read(document);
    const { path } = recipe.pathAt(document.offsetAt(editor.selection.active));
    return path[0] === "frames" && path.length > 1 ? String(path[1]) : undefined;
  }

  function adopt(panel: vscode.WebviewPanel, document: vscode.TextDocument, start: PreviewStart): void {
    const key = document.uri.toString();
    const preview = new Preview(document, panel, tools, start);
    previews.set(key, preview);
    panel.onDidDispose(() => {
      if (previews.get(key) === preview) previews.delete(key);
      preview.dispose();
      void memory.forget(memoryKey(document));
    });
  }

  return vscode.Disposable.from(
    vscode.commands.registerCommand("rollbook.openPreview", (uri?: unknown, frame?: unknown) => open(uri, frame)),
    vscode.window.registerWebviewPanelSerializer(VIEW, {
      async deserializeWebviewPanel(panel, state: { document?: unknown } | undefined) {
        try {
          if (typeof state?.document !== "string") throw new Error("The panel's state names no recipe.");
          const document = await vscode.workspace.openTextDocument(vscode.Uri.parse(state.document, true));
          adopt(panel, document, { kept: await memory.recall(memoryKey(document)) });
        } catch (error) {
          services.log.warn(`A preview could not be restored: ${String(error)}`);
          panel.dispose();
        }
      },
    }),
    new vscode.Disposable(() => {
      for (const preview of previews.values()) preview.dispose();
    }),
  );
}
