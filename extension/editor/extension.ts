/** The extension on a desktop: registers every part. */
import * as vscode from "vscode";
import { registerCopyStand } from "./copy-stand/index.ts";
import { proposeFirstRoll } from "./views/first-roll.ts";
import { registerNewRoll } from "./new-roll/index.ts";
import { registerRenew } from "./new-roll/renew.ts";
import { makePool } from "./pool.ts";
import { makePanelTools, registerPreview } from "./preview/index.ts";
import { registerSheet } from "./sheet/index.ts";
import { Recipes } from "./recipes.ts";
import { registerTextFeatures } from "./text-features.ts";
import { registerReview } from "./review/index.ts";
import { registerRollWork } from "./roll-work/index.ts";
import type { EditorServices } from "./services.ts";
import { registerSurvey } from "./survey/index.ts";
import { pointerAt } from "../scans/files/pointer.ts";
import { openSurveys } from "./survey/surveys.ts";
import { contributeCommand } from "./terminal-command.ts";

/** Called once, when a recipe is there. Registers everything and reads nothing but the recipes that are open. */
export function activate(context: vscode.ExtensionContext): void {
  const log = vscode.window.createOutputChannel("Rollbook", { log: true });
  const recipes = new Recipes(pointerAt);
  const pool = makePool(context);
  const surveys = openSurveys(context);
  const services: EditorServices = {
    recipes,
    surveys,
    makesPictures: true,
    log,
    t: (message, ...args) => vscode.l10n.t(message, ...args),
  };
  const panels = makePanelTools(context, services, pool);
  contributeCommand(context, log);
  context.subscriptions.push(
    log,
    ...registerTextFeatures(context, services),
    registerNewRoll(context, services, pool),
    registerRenew(services, pool),
    registerPreview(panels),
    registerSheet(panels),
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
