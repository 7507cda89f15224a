/** The text features: what the extension offers on a desktop and in a browser alike. Nothing here needs Node. */
import type * as vscode from "vscode";
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
import { registerRollsView } from "./views/rolls-view.ts";
import { registerStatusBar } from "./views/status-bar.ts";
import type { TextServices } from "./services.ts";

/** Registers all of them; disposed of by the context that they are handed to. */
export const registerTextFeatures = (context: vscode.ExtensionContext, services: TextServices): vscode.Disposable[] => [
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
];
