/** The command `rollbook` in the editor's own terminals, run by the editor's own Node: nothing else need be installed. */
import { chmodSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { delimiter, join } from "node:path";
import * as vscode from "vscode";

/** Puts a folder with the command behind what a terminal's PATH has already: a command that is installed wins. */
export function contributeCommand(context: vscode.ExtensionContext, log: vscode.LogOutputChannel): void {
  const folder = vscode.Uri.joinPath(context.globalStorageUri, "bin").fsPath;
  try {
    writeCommand(folder, process.execPath, vscode.Uri.joinPath(context.extensionUri, "dist", "rollbook.mjs").fsPath);
  } catch (error) {
    log.warn(`The command rollbook is not there in terminals: ${String(error)}`);
    return;
  }
  const { environmentVariableCollection: variables } = context;
  variables.description = new vscode.MarkdownString(vscode.l10n.t("Adds the command rollbook."));
  variables.append("PATH", delimiter + folder);
}

/** Writes the command for POSIX shells and for Windows; files that are as they should be are left alone. */
export function writeCommand(folder: string, node: string, program: string): void {
  mkdirSync(folder, { recursive: true });
  const quoted = (path: string): string => `'${path.replaceAll("'", String.raw`'\''`)}'`;
  put(join(folder, "rollbook"), `#!/bin/sh\nELECTRON_RUN_AS_NODE=1 exec ${quoted(node)} ${quoted(program)} "$@"\n`);
  if (process.platform === "win32")
    put(
      join(folder, "rollbook.cmd"),
      `@echo off\r\nsetlocal\r\nset ELECTRON_RUN_AS_NODE=1\r\n"${node}" "${program}" %*\r\n`,
    );
}

function put(file: string, text: string): void {
  try {
    if (readFileSync(file, "utf8") === text) return;
  } catch {
    // not there yet
  }
  writeFileSync(file, text);
  chmodSync(file, 0o755);
}
