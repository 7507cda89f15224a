/** Which roll a command without a target is about while a panel of a roll has the focus. */
import * as vscode from "vscode";
import { targetOf } from "../targets.ts";

let active: vscode.Uri | undefined;

/** Follows a panel of a roll: while it is the active one, commands are about its roll. */
export function followActive(panel: vscode.WebviewPanel, roll: vscode.Uri): vscode.Disposable {
  const drop = (): void => {
    if (active === roll) active = undefined;
  };
  const follow = (): void => {
    if (panel.active) active = roll;
    else drop();
  };
  follow();
  return vscode.Disposable.from(panel.onDidChangeViewState(follow), panel.onDidDispose(drop), { dispose: drop });
}

/** The address that a command was given, else the roll of the active panel, else the open text; any kind of file. */
export const targetUri = (given: unknown): vscode.Uri | undefined =>
  targetOf(given).uri ?? active ?? vscode.window.activeTextEditor?.document.uri;
