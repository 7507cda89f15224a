/** A roll's frames as another revision of its recipe has them. */
import { relative, sep } from "node:path";
import * as vscode from "vscode";
import { JobError } from "../../failure.ts";
import type { SheetRequests } from "../../messages.ts";
import { loadRoll } from "../../recipe/resolve/workspace.ts";
import type { Pool } from "../../work/pool/pool.ts";
import { readHistoryJob } from "../../work/review/jobs.ts";
import { recipesAsFiles } from "../../work/review/recipes-as-files.ts";
import { chooseRevision } from "../review/choose.ts";
import { gitProgram } from "../review/git-extension.ts";

/**
 * Asks for a revision and reads the roll there.
 * @returns no label where nobody chose one
 * @throws JobError where the revision has no such recipe, or one with errors
 */
export async function earlierFrames(uri: vscode.Uri, pool: Pool): Promise<SheetRequests["earlier"]["reply"]> {
  const name = vscode.workspace.asRelativePath(uri);
  const range = await chooseRevision(pool, uri, vscode.l10n.t("Show {0} as it was in…", name), {
    file: uri.fsPath,
  });
  if (range === undefined) return { frames: [] };
  const folder = vscode.Uri.joinPath(uri, "..").fsPath;
  const history = await pool.run(readHistoryJob, { folder, range, program: await gitProgram() });
  const { recipes } = history.snapshots.before;
  const file = relative(history.root, uri.fsPath).split(sep).join("/");
  const loaded = await loadRoll(file, recipesAsFiles(recipes));
  if (!loaded?.resolved)
    throw new JobError({
      code: "no-roll",
      message: vscode.l10n.t("{0} has no readable recipe {1}.", range, file),
    });
  const frames = loaded.resolved.frames.map(({ id, look, area, turn, mirror }) => ({ id, look, area, turn, mirror }));
  return { label: range, frames };
}
