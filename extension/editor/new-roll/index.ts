/** "New roll from stock…": asks for stock, scans and name, looks the scans through, and opens the recipe it has written. */
import { basename } from "node:path";
import * as vscode from "vscode";
import type { Pool } from "../../work/pool/pool.ts";
import { startRoll } from "../../work/new-roll/new-roll.ts";
import type { StartedRoll } from "../../work/new-roll/started-roll.ts";
import { scanFiles } from "../../work/new-roll/scans/sort-scans.ts";
import { openWorkspace } from "../../work/files/workspace.ts";
import type { EditorServices } from "../services.ts";
import { schemaLine } from "../../recipe/schema/schema-line.ts";
import { setting } from "../settings.ts";
import { uriOf } from "../uris.ts";
import { ask, type Choice, choose, inSteps, type Question } from "./steps.ts";

/** What the person wants. */
interface NewRollRequest {
  /** Undefined for a roll without a stock. */
  stock?: vscode.Uri;
  scans?: vscode.Uri;
  /** The recipe to be written. */
  roll?: vscode.Uri;
}

export function registerNewRoll(
  context: vscode.ExtensionContext,
  services: EditorServices,
  pool: Pool,
): vscode.Disposable {
  const command = vscode.commands.registerCommand("rollbook.newRollFromStock", async (chosen?: unknown) => {
    const given = chosen instanceof vscode.Uri ? chosen : undefined;
    const root = (given && vscode.workspace.getWorkspaceFolder(given)) ?? vscode.workspace.workspaceFolders?.[0];
    if (!root) {
      void vscode.window.showErrorMessage(vscode.l10n.t("Open a folder first: the roll's recipe is written into it."));
      return;
    }
    const options: NewRollRequest = {};
    if (!(await askAll(options, root.uri, services, given)) || !options.scans || !options.roll) return;
    const started = await measureScans(
      options as NewRollRequest & Required<Omit<NewRollRequest, "stock">>,
      root.uri,
      services,
      pool,
    );
    if (!started) return;
    const schema = setting("newRoll.schema", root.uri);
    const line = schema && schemaLine(options.roll.path, vscode.Uri.joinPath(root.uri, schema).path);
    const text = line + started.text;
    const edit = new vscode.WorkspaceEdit();
    edit.createFile(options.roll, { ignoreIfExists: false, contents: new TextEncoder().encode(text) });
    if (!(await vscode.workspace.applyEdit(edit))) {
      void vscode.window.showErrorMessage(vscode.l10n.t("{0} could not be written.", options.roll.fsPath));
      return;
    }
    await vscode.window.showTextDocument(options.roll);
    showSummary(started, services);
  });
  context.subscriptions.push(command);
  return command;
}

/** Asks for stock, folder of scans and name of a roll that is to be created; undefined when the person cancels. */
export async function askRoll(
  title: string,
  services: EditorServices,
): Promise<{ readonly stock?: vscode.Uri; readonly scans: vscode.Uri; readonly roll: vscode.Uri } | undefined> {
  const root = vscode.workspace.workspaceFolders?.[0];
  if (!root) {
    void vscode.window.showErrorMessage(vscode.l10n.t("Open a folder first: the roll's recipe is written into it."));
    return undefined;
  }
  const options: NewRollRequest = {};
  if (!(await askAll(options, root.uri, services, undefined, title)) || !options.scans || !options.roll)
    return undefined;
  return { ...(options.stock ? { stock: options.stock } : {}), scans: options.scans, roll: options.roll };
}

/** Asks for everything, step by step. False when the person turned away. */
async function askAll(
  options: NewRollRequest,
  root: vscode.Uri,
  services: EditorServices,
  given?: vscode.Uri,
  title = vscode.l10n.t("New roll from stock"),
): Promise<boolean> {
  const fromStock = given && /\.stock\.ya?ml$/i.test(given.path) ? given : undefined;
  if (fromStock) options.stock = fromStock;
  const stockStep: Question = async (step) => {
    const answer = await choose(
      step,
      vscode.l10n.t("The stock that was shot: curve, matrices and look come from it"),
      stockChoices(services),
    );
    if (typeof answer === "object") options.stock = answer.value;
    return answer;
  };
  const scansStep: Question = async (step) => {
    const answer = await choose(step, vscode.l10n.t("The folder with the roll's scans"), folderChoices(root));
    if (typeof answer !== "object") return answer;
    options.scans = answer.value ?? (await browse(root));
    // Closing the dialog is no answer: the list is shown again.
    return options.scans ? answer : scansStep(step);
  };
  const nameStep: Question = async (step) => {
    const folder = nearFolder(options.scans!, root);
    const answer = await ask(
      step,
      vscode.l10n.t("Name of the recipe, in {0}", vscode.workspace.asRelativePath(folder)),
      `${nameOf(options.scans!, folder)}.roll.yaml`,
      (text) => nameError(folder, text),
    );
    if (typeof answer === "object") options.roll = vscode.Uri.joinPath(folder, answer.value.trim());
    return answer;
  };
  return inSteps(title, fromStock ? [scansStep, nameStep] : [stockStep, scansStep, nameStep]);
}

async function stockChoices({ recipes }: EditorServices): Promise<Choice<vscode.Uri | undefined>[]> {
  const files = await recipes.files.find("stock");
  const stocks = await Promise.all(
    files.map(async (file) => {
      const uri = uriOf(file);
      const reading = await recipes.file(uri);
      const value = reading?.document.value as { title?: unknown } | undefined;
      const title = typeof value?.title === "string" ? value.title : basename(file).replace(/\.stock\.ya?ml$/i, "");
      return { label: title, description: vscode.workspace.asRelativePath(uri), value: uri };
    }),
  );
  return [
    ...stocks,
    {
      label: vscode.l10n.t("No stock"),
      description: vscode.l10n.t("worked out from the scans and published films"),
      value: undefined,
    },
  ];
}

/** More files than these are not looked through for folders of scans. */
const MAX_FILES = 5000;

/** Folders that hold several scans, and the dialog for any other (undefined). */
async function folderChoices(root: vscode.Uri): Promise<Choice<vscode.Uri | undefined>[]> {
  const found = await vscode.workspace.findFiles(new vscode.RelativePattern(root, "**/*"), undefined, MAX_FILES);
  const names = new Map<string, string[]>();
  for (const { path } of found) {
    const at = path.lastIndexOf("/");
    const folder = path.slice(0, at);
    names.set(folder, [...(names.get(folder) ?? []), path.slice(at + 1)]);
  }
  const folders = [...names].flatMap(([path, own]) => {
    const { scans } = scanFiles(own);
    return scans.length > 1 ? [{ uri: root.with({ path }), count: scans.length }] : [];
  });
  return [
    ...folders
      .toSorted((a, b) => (a.uri.path < b.uri.path ? -1 : 1))
      .map(({ uri, count }) => ({
        label: vscode.workspace.asRelativePath(uri),
        description: vscode.l10n.t("{0} scans", count),
        value: uri,
      })),
    { label: vscode.l10n.t("Another folder…"), value: undefined },
  ];
}

async function browse(root: vscode.Uri): Promise<vscode.Uri | undefined> {
  const picked = await vscode.window.showOpenDialog({
    canSelectFolders: true,
    canSelectFiles: false,
    defaultUri: root,
    openLabel: vscode.l10n.t("Use these scans"),
  });
  return picked?.[0];
}

/** The recipe lies beside the folder of scans, within the workspace. */
function nearFolder(scans: vscode.Uri, root: vscode.Uri): vscode.Uri {
  const inside = scans.path.startsWith(`${root.path}/`);
  return inside ? vscode.Uri.joinPath(scans, "..") : root;
}

/** "harbour" for harbour/scans: a folder named after what is in it says nothing of the roll. */
function nameOf(scans: vscode.Uri, folder: vscode.Uri): string {
  const own = basename(scans.path);
  return /^(scans?|raw|dng|tiff?|img|dcim|\d+)$/i.test(own) ? basename(folder.path) : own;
}

async function nameError(folder: vscode.Uri, text: string): Promise<string | undefined> {
  const name = text.trim();
  if (!/^[^\\/:*?"<>|]+\.roll\.ya?ml$/i.test(name))
    return vscode.l10n.t("A roll's name ends in .roll.yaml and holds no folders.");
  try {
    await vscode.workspace.fs.stat(vscode.Uri.joinPath(folder, name));
    return vscode.l10n.t("There is a recipe of this name already.");
  } catch {
    return undefined; // not there, as it should be
  }
}

/** Looks through the scans with progress and a way to stop; undefined when stopped or failed. */
async function measureScans(
  options: { stock?: vscode.Uri; scans: vscode.Uri; roll: vscode.Uri },
  root: vscode.Uri,
  { log }: EditorServices,
  pool: Pool,
): Promise<StartedRoll | undefined> {
  const controller = new AbortController();
  try {
    return await vscode.window.withProgress(
      {
        location: vscode.ProgressLocation.Notification,
        title: vscode.l10n.t("Looking through the scans"),
        cancellable: true,
      },
      (progress, token) => {
        token.onCancellationRequested(() => controller.abort());
        let before = 0;
        return startRoll(
          { folder: options.scans.fsPath, roll: options.roll.fsPath, stock: options.stock?.fsPath },
          openWorkspace(root.fsPath),
          pool,
          {
            signal: controller.signal,
            onProgress(done, total, label) {
              progress.report({ increment: ((done - before) / total) * 100, message: label });
              before = done;
            },
          },
        );
      },
    );
  } catch (error) {
    if (controller.signal.aborted) return undefined;
    log.error(error as Error);
    void vscode.window.showErrorMessage((error as Error).message);
    return undefined;
  }
}

function showSummary(started: StartedRoll, { log }: EditorServices): void {
  const lines = [...started.warnings, ...started.unreadable.map(({ name, reason }) => `${name}: ${reason}`)];
  for (const line of lines) log.warn(line);
  const uncertain = started.frames.filter(({ found }) => !found || found.confidence < 0.8).length;
  const parts = [
    vscode.l10n.t("{0} frames created.", started.frames.length),
    ...(started.difference ? [started.difference.words] : []),
    ...(uncertain > 0 ? [vscode.l10n.t("Look at the edges of {0} of them.", uncertain)] : []),
  ];
  const open = vscode.l10n.t("Open preview");
  const show = vscode.l10n.t("Show log");
  const message = parts.join(" ");
  const buttons = lines.length > 0 ? [open, show] : [open];
  const shown =
    lines.length > 0
      ? vscode.window.showWarningMessage(`${message} ${lines[0]}`, ...buttons)
      : vscode.window.showInformationMessage(message, ...buttons);
  void shown.then((chosen) => {
    if (chosen === open) void vscode.commands.executeCommand("rollbook.openPreview");
    if (chosen === show) log.show();
  });
}
