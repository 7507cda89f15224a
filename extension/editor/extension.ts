import * as vscode from "vscode";
import { registerBase } from "./base.ts";
import { registerCommands } from "./commands.ts";
import { registerCompletion } from "./language/completion.ts";
import { registerDefinition } from "./language/definition.ts";
import { registerCopyStand } from "./copy-stand/index.ts";
import { registerDiagnostics } from "./language/diagnostics.ts";
import { registerExplain } from "./explain.ts";
import { proposeFirstRoll } from "./views/first-roll.ts";
import { registerFixes } from "./language/fixes.ts";
import { registerFolding } from "./language/folding.ts";
import { registerFormatting } from "./language/formatting.ts";
import { registerHover } from "./language/hover.ts";
import { registerInlayHints } from "./language/inlay-hints.ts";
import { registerLenses } from "./language/lenses.ts";
import { registerLinks } from "./language/links.ts";
import { registerMoves } from "./language/moves.ts";
import { registerNewRecipe } from "./new-roll/new-recipe.ts";
import { registerNewRoll } from "./new-roll/index.ts";
import { makePool } from "./pool.ts";
import { registerPreview } from "./preview/index.ts";
import { Recipes } from "./recipes.ts";
import { registerRename } from "./language/rename.ts";
import { registerReview } from "./review/index.ts";
import { registerRollWork } from "./roll-work/index.ts";
import { registerRollsView } from "./views/rolls-view.ts";
import type { EditorServices } from "./services.ts";
import { registerStatusBar } from "./views/status-bar.ts";
import { registerSurvey } from "./survey/index.ts";
import { openSurveys } from "./survey/surveys.ts";
import { registerSymbols } from "./language/symbols.ts";
import { contributeCommand } from "./terminal-command.ts";

/** Called once, when a recipe is there. Registers everything and reads nothing but the recipes that are open. */
export function activate(context: vscode.ExtensionContext): void {
  const log = vscode.window.createOutputChannel("Rollbook", { log: true });
  const recipes = new Recipes();
  const pool = makePool(context);
  const surveys = openSurveys(context);
  const services: EditorServices = {
    recipes,
    surveys,
    makesPictures: true,
    log,
    t: (message, ...args) => vscode.l10n.t(message, ...args),
  };
  contributeCommand(context, log);
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
    registerNewRoll(context, services, pool),
    registerPreview(context, services, pool),
    registerRollWork(context, services, pool),
    registerReview(context, services, pool),
    registerSurvey(context, services, pool),
    registerCopyStand(context, services, pool),
    pool,
    surveys,
    recipes,
  );
  void proposeFirstRoll(services, context.workspaceState);
}

/** Everything was handed to the context, which disposes of it. */
export function deactivate(): void {}
