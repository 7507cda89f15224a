/** Registers the review of recipe changes and its commands in VS Code. */
import { errorText } from "../../scans/files/system-errors.ts";
import * as vscode from "vscode";
import type { Pool } from "../../work/pool/pool.ts";
import { PanelMemory } from "../panels/panel-memory.ts";
import type { EditorServices } from "../services.ts";
import { targetUri } from "../panels/active-roll.ts";
import { targetOf } from "../targets.ts";
import { isRecipe } from "../uris.ts";
import { chooseRange, chooseRevision } from "./choose.ts";
import { repositoryOf } from "./git-extension.ts";
import { memoryKey, ReviewPanel } from "./panel.ts";
import type { ReviewRequest } from "./request.ts";
import { ReviewTexts } from "./texts.ts";

const VIEW = "rollbook.review";

/**
 * Reviews in git. Commands: `rollbook.reviewChanges`, `rollbook.compareWithRevision` (a recipe's address, a row of the
 * Rolls view or of source control) and `rollbook.compareFrame` (recipe, frame: the frame as it was committed).
 */
export function registerReview(
  context: vscode.ExtensionContext,
  services: EditorServices,
  pool: Pool,
): vscode.Disposable {
  const texts = new ReviewTexts();
  const panels = new Set<ReviewPanel>();
  const memory = new PanelMemory(context.storageUri?.fsPath);
  const tools = { services, pool, texts, memory, dist: vscode.Uri.joinPath(context.extensionUri, "dist") };

  function adopt(panel: vscode.WebviewPanel, request: ReviewRequest, kept?: unknown): void {
    const review = new ReviewPanel(panel, request, tools, kept);
    panels.add(review);
    panel.iconPath = vscode.Uri.joinPath(context.extensionUri, "extension", "editor", "media", "icon.png");
    panel.onDidDispose(() => {
      panels.delete(review);
      review.dispose();
      void memory.forget(memoryKey(request));
    });
  }

  const register = (id: string, ask: AskForReview): vscode.Disposable =>
    vscode.commands.registerCommand(id, async (...given: unknown[]) => {
      try {
        // A repository's own settings can name programs that git runs.
        if (!vscode.workspace.isTrusted)
          throw new Error(vscode.l10n.t("Reviews need a trusted workspace: they run git and open scans."));
        const request = await ask(pool, ...given);
        if (request)
          adopt(vscode.window.createWebviewPanel(VIEW, vscode.l10n.t("Review"), vscode.ViewColumn.Active), request);
      } catch (error) {
        services.log.warn(errorText(error));
        void vscode.window.showErrorMessage(errorText(error));
      }
    });

  return vscode.Disposable.from(
    texts,
    register("rollbook.reviewChanges", askForChanges),
    register("rollbook.compareWithRevision", askForRevision),
    register("rollbook.compareFrame", askForFrame),
    vscode.window.registerWebviewPanelSerializer(VIEW, {
      async deserializeWebviewPanel(panel, state: { request?: unknown } | undefined) {
        const request = state?.request;
        if (isRequest(request)) adopt(panel, request, await memory.recall(memoryKey(request)));
        else panel.dispose();
      },
    }),
    new vscode.Disposable(() => {
      for (const panel of panels) panel.dispose();
    }),
  );
}

/** Finds out what to review, from what a command was given and by asking; undefined where nothing was chosen. */
type AskForReview = (pool: Pool, ...given: unknown[]) => Promise<ReviewRequest | undefined>;

const askForChanges: AskForReview = async (pool) => {
  const folder = await folderToReview();
  if (folder) return await chooseRange(pool, folder);
  void vscode.window.showInformationMessage(vscode.l10n.t("Open a folder with recipes first."));
  return undefined;
};

/** A file's timeline hands over its row, which only the provider of it understands, and behind it the file's address. */
const askForRevision: AskForReview = async (pool, row, behind) => {
  const target = row ?? (behind instanceof vscode.Uri ? behind : undefined);
  const uri = recipeOf(target);
  if (!uri) {
    void vscode.window.showInformationMessage(
      vscode.l10n.t("Open a recipe first: a file whose name ends in .roll.yaml or .stock.yaml."),
    );
    return undefined;
  }
  const title = vscode.l10n.t("Compare {0} with…", vscode.workspace.asRelativePath(uri));
  const range = await chooseRevision(pool, uri, title, { file: uri.fsPath });
  return range === undefined ? undefined : requestFor(uri, range, targetOf(target).frame);
};

const askForFrame: AskForReview = async (_pool, target, frame) => {
  const uri = recipeOf(target);
  return uri && requestFor(uri, "", typeof frame === "string" ? frame : targetOf(target).frame);
};

const requestFor = (uri: vscode.Uri, range: string, frame: string | undefined): ReviewRequest => ({
  folder: vscode.Uri.joinPath(uri, "..").fsPath,
  range,
  file: uri.fsPath,
  frame,
});

/** The repository of the open recipe, or the workspace's first folder. */
async function folderToReview(): Promise<vscode.Uri | undefined> {
  const active = vscode.window.activeTextEditor?.document.uri;
  const repository = active?.scheme === "file" ? await repositoryOf(active) : undefined;
  if (repository) return repository.rootUri;
  const folder = active && vscode.workspace.getWorkspaceFolder(active);
  return folder?.uri ?? vscode.workspace.workspaceFolders?.[0]?.uri;
}

/** The recipe that a command was called for, else the open text. */
function recipeOf(target: unknown): vscode.Uri | undefined {
  const uri = targetUri(target);
  return uri?.scheme === "file" && isRecipe(uri) ? uri : undefined;
}

/** What a page kept comes from outside: its shape is looked at before it is used. */
function isRequest(value: unknown): value is ReviewRequest {
  if (typeof value !== "object" || value === null) return false;
  const { folder, range, file, frame, program } = value as Record<string, unknown>;
  const isText = (one: unknown): boolean => one === undefined || typeof one === "string";
  return (
    typeof folder === "string" && typeof range === "string" && isText(file) && isText(frame) && program === undefined
  );
}
