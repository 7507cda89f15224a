/** The extension's settings, each with its type. */
import * as vscode from "vscode";
import type { ContactField } from "../work/contact/contact-fields.ts";
import type { SheetPaper } from "../work/contact/pdf/pdf-layout.ts";
import { isAwayFromScans } from "../recipe/problems.ts";
import type { Reading } from "../recipe/language/document-cache.ts";

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
  "newRoll.schema": string;
  "limits.megapixels": number;
  "limits.seconds": number;
  "contactSheet.fields": ContactField[];
  "contactSheet.paper": SheetPaper;
}

export function setting<K extends keyof Settings>(key: K, scope?: vscode.ConfigurationScope): Settings[K] {
  const value = vscode.workspace.getConfiguration("rollbook", scope).get<Settings[K]>(key);
  if (value === undefined) throw new Error(`The setting rollbook.${key} is not declared in package.json.`);
  return value;
}

/** A reading without the problems that the user does not want to see, wherever they are shown or counted. */
export function asShown(reading: Reading, scope: vscode.ConfigurationScope): Reading {
  if (setting("diagnostics.missingScans", scope)) return reading;
  return { ...reading, problems: reading.problems.filter((one) => !isAwayFromScans(one)) };
}
