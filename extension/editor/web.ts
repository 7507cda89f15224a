/** The extension in a browser without a remote: the text features alone, on any file system that the editor has. */
import * as vscode from "vscode";
import { registerBase } from "./base.ts";
import { registerCommands } from "./commands.ts";
import { registerExplain } from "./explain.ts";
import { registerCompletion } from "./language/completion.ts";
import { registerDefinition } from "./language/definition.ts";
import { registerDiagnostics } from "./language/diagnostics.ts";
import { registerFixes } from "./language/fixes.ts";
import { registerFolding } from "./language/folding.ts";
import { registerFormatting } from "./language/formatting.ts";
import { registerHover } from "./language/hover.ts";
import { registerInlayHints } from "./language/inlay-hints.ts";
import { registerLenses } from "./language/lenses.ts";
import { registerLinks } from "./language/links.ts";
import { registerMoves } from "./language/moves.ts";
import { registerRename } from "./language/rename.ts";
import { registerSymbols } from "./language/symbols.ts";
import { registerNewRecipe } from "./new-roll/new-recipe.ts";
import { Recipes } from "./recipes.ts";
import type { TextServices } from "./services.ts";
import { registerRollsView } from "./views/rolls-view.ts";
import { registerStatusBar } from "./views/status-bar.ts";
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
    registerDiagnostics(services),
    registerFixes(services),
    registerMoves(services),
    registerBase(services),
    registerCompletion(services),
    registerHover(services),
    registerDefinition(services),
    registerLinks(services),
    registerSymbols(services),
    registerFolding(services),
    registerInlayHints(services),
    registerLenses(services),
    registerRename(services),
    registerFormatting(services),
    registerRollsView(services),
    registerStatusBar(services),
    registerExplain(context, services),
    registerCommands(services),
    registerNewRecipe(),
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
