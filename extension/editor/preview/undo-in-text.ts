/** Undo and redo from a panel: in the text, where the change is, and with the editor's layout as it was. */
import { setTimeout } from "node:timers/promises";
import * as vscode from "vscode";

/** As the editor's command gives it: the groups of a row or column, each with its size or with groups of its own. */
interface Layout {
  readonly orientation?: number;
  readonly groups: readonly { readonly size?: number; readonly groups?: Layout["groups"] }[];
}

export async function undoInText(
  document: vscode.TextDocument,
  redo: boolean,
  panel: vscode.WebviewPanel,
): Promise<void> {
  const before = await editorLayout();
  const shown = vscode.window.visibleTextEditors.find((e) => e.document === document);
  // The editor undoes where the focus is.
  await vscode.window.showTextDocument(document, { viewColumn: shown?.viewColumn ?? columnOf(document) });
  await vscode.commands.executeCommand(redo ? "redo" : "undo");
  panel.reveal();
  await restore(before, panel);
}

/** The group that has the text in a tab behind others; the first one where none has. */
function columnOf(document: vscode.TextDocument): vscode.ViewColumn {
  const group = vscode.window.tabGroups.all.find(({ tabs }) =>
    tabs.some(({ input }) => input instanceof vscode.TabInputText && input.uri.toString() === document.uri.toString()),
  );
  return group?.viewColumn ?? vscode.ViewColumn.One;
}

async function editorLayout(): Promise<Layout | undefined> {
  return await vscode.commands.executeCommand<Layout | undefined>("vscode.getEditorLayout");
}

const sizesOf = ({ groups }: Layout): number[] => groups.map(({ size = 0 }) => size);

/** The command maximises the group that is active when it runs: a panel that is revealed becomes so a little later. */
async function untilActive(panel: vscode.WebviewPanel): Promise<void> {
  for (let tries = 0; tries < 40 && !panel.active; tries++) await setTimeout(25);
}

/**
 * Taking the focus to a hidden or small group makes the editor show it. A maximised group hides the others, which keep
 * their sizes: the sizes of a row add up to more than the row then, or a row or column of hidden groups has none.
 */
async function restore(before: Layout | undefined, panel: vscode.WebviewPanel): Promise<void> {
  const after = await editorLayout();
  if (!before || !after || before.groups.length < 2 || before.groups.length !== after.groups.length) return;
  const [was, is] = [sizesOf(before), sizesOf(after)];
  if (was.every((size, i) => Math.abs(size - is[i]!) <= 2)) return;
  const sum = (sizes: readonly number[]): number => sizes.reduce((a, b) => a + b, 0);
  if (sum(was) > sum(is) + 20 || was.some((size) => size < 1)) {
    await untilActive(panel);
    await vscode.commands.executeCommand("workbench.action.toggleMaximizeEditorGroup");
  } else await vscode.commands.executeCommand("vscode.setEditorLayout", before);
}
