import * as vscode from "vscode";

/** The settings under rollbook, as the manifest declares them. */
interface Settings {
  "diagnostics.structural": "auto" | "always" | "never";
  "diagnostics.missingScans": boolean;
  "inlayHints.inherited": boolean;
  "codeLens.frames": boolean;
  "format.enable": boolean;
  allowedFolders: string[];
  "preview.surround": number;
  "preview.cacheSize": number;
}

export function setting<K extends keyof Settings>(key: K, scope?: vscode.ConfigurationScope): Settings[K] {
  const value = vscode.workspace.getConfiguration("rollbook", scope).get<Settings[K]>(key);
  if (value === undefined) throw new Error(`The setting rollbook.${key} is not declared in package.json.`);
  return value;
}
