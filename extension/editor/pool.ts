/** The pool of the editor, started with its first job. */
import { availableParallelism } from "node:os";
import * as vscode from "vscode";
import { openPool, type Pool } from "../work/pool/pool.ts";
import { setting } from "./settings.ts";

/** The one pool of the editor, which decodes and encodes in a process of its own. It starts with its first job. */
export function makePool(context: vscode.ExtensionContext): Pool & vscode.Disposable {
  // Two at least: a picture must not wait behind a thumbnail. Four at most: the editor is not alone on the machine.
  const workers = Math.min(4, Math.max(2, availableParallelism() - 1));
  const pool = openPool({
    workers,
    programs: vscode.Uri.joinPath(context.extensionUri, "dist").fsPath,
    limit: setting("limits.seconds") * 1000,
    environment: { ROLLBOOK_MEGAPIXELS: String(setting("limits.megapixels")) },
  });
  return { ...pool, dispose: () => void pool.close() };
}
