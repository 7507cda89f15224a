/** Pictures can be made again at any time: where git would list them as new files, it is proposed to ignore them. */
import { existsSync, lstatSync } from "node:fs";
import { join, relative } from "node:path";
import * as vscode from "vscode";
import { ignoreLines } from "./ignore-lines.ts";
import { openGit } from "../../work/review/git/git.ts";

/** Proposes a line for the `.gitignore` of the repository's top folder; does nothing where git ignores the files already. */
export async function proposeIgnoring(
  folder: string,
  files: readonly string[],
  log: vscode.LogOutputChannel,
): Promise<void> {
  const [first] = files;
  if (first === undefined) return;
  const root = await untracked(join(folder, first)).catch((error: unknown) => {
    log.debug(String(error)); // no git, or no repository: nothing to propose
    return undefined;
  });
  const line = root === undefined ? undefined : ignoreLines(relative(root, folder), files);
  if (root === undefined || line === undefined) return;
  // A link would take the line to wherever it leads, out of the repository too.
  if (lstatSync(join(root, ".gitignore"), { throwIfNoEntry: false })?.isFile() === false) return;
  const add = vscode.l10n.t("Add to .gitignore");
  const message = vscode.l10n.t(
    "git would list the new pictures in {0}. They can be made again at any time.",
    vscode.workspace.asRelativePath(folder),
  );
  if ((await vscode.window.showInformationMessage(message, add)) === add)
    await addLine(vscode.Uri.file(join(root, ".gitignore")), line);
}

/** The top folder of the repository in which a file lies that git neither ignores nor has; undefined otherwise. */
async function untracked(file: string): Promise<string | undefined> {
  const git = await openGit(join(file, ".."));
  // Not check-ignore: it refuses the literal pathspecs that every git command here is run with.
  const listed = await git.tryRun("ls-files", "--others", "--exclude-standard", "-z", "--", file);
  return listed ? git.root : undefined;
}

/** One edit of a text: one step to undo. Saved at once, since git reads the file and not the editor. */
async function addLine(uri: vscode.Uri, line: string): Promise<void> {
  const edit = new vscode.WorkspaceEdit();
  if (!existsSync(uri.fsPath))
    edit.createFile(uri, { ignoreIfExists: true, contents: new TextEncoder().encode(`${line}\n`) });
  else {
    const document = await vscode.workspace.openTextDocument(uri);
    const end = document.lineAt(document.lineCount - 1).range.end;
    edit.insert(uri, end, `${end.character > 0 ? "\n" : ""}${line}\n`);
  }
  await vscode.workspace.applyEdit(edit);
  await (await vscode.workspace.openTextDocument(uri)).save();
}
