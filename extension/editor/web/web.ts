/** The extension in a browser without a remote: the text features alone, on any file system that the editor has. */
import * as vscode from "vscode";
import { Recipes } from "../recipes.ts";
import { registerTextFeatures } from "../text-features.ts";
import type { TextServices } from "../services.ts";
import { NEEDS_DESKTOP } from "./web-commands.ts";

const noSurveys: TextServices["surveys"] = {
  findings: () => [],
  of: () => undefined,
  recall: () => Promise.resolve(),
  onDidChange: () => new vscode.Disposable(() => {}),
};

export function activate(context: vscode.ExtensionContext): void {
  const log = vscode.window.createOutputChannel("Rollbook", { log: true });
  const recipes = new Recipes();
  const services: TextServices = {
    recipes,
    surveys: noSurveys,
    makesPictures: false,
    log,
    t: (message, ...args) => vscode.l10n.t(message, ...args),
  };
  context.subscriptions.push(
    log,
    ...registerTextFeatures(context, services),
    recipes,
    ...NEEDS_DESKTOP.map((name) =>
      vscode.commands.registerCommand(`rollbook.${name}`, () =>
        vscode.window.showInformationMessage(
          vscode.l10n.t("Pictures need VS Code on a desktop, or a remote: a browser alone does not read scans."),
        ),
      ),
    ),
  );
}

/** Everything was handed to the context, which disposes of it. */
export function deactivate(): void {}
