/** Registers the survey: its commands, panel, findings and fixes. */
import * as vscode from "vscode";
import { findingCount } from "../../recipe/language/findings.ts";
import type { Pool } from "../../work/pool/pool.ts";
import type { SurveyReport } from "../../work/survey/survey-roll.ts";
import type { EditorServices } from "../services.ts";
import { targetUri } from "../panels/active-roll.ts";
import { targetOf } from "../targets.ts";
import { fileOf } from "../uris.ts";
import { registerFindings } from "./diagnostics.ts";
import { registerFindingFixes } from "./fixes.ts";
import { SurveyPanel } from "./panel.ts";
import { surveyScans } from "./run.ts";

const VIEW = "rollbook.survey";

/**
 * The survey of a roll's scans. Commands: `rollbook.survey` measures them and shows what was found, `rollbook.showSurvey`
 * opens the report of the last survey. Both take a recipe's address or a row of the Rolls view, else the open text;
 * `survey` also `{ report: false }` to open no report, `showSurvey` a frame to begin at.
 */
export function registerSurvey(
  context: vscode.ExtensionContext,
  services: EditorServices,
  pool: Pool,
): vscode.Disposable {
  const dist = vscode.Uri.joinPath(context.extensionUri, "dist");
  const panels = new Map<string, SurveyPanel>();

  function adopt(panel: vscode.WebviewPanel, uri: vscode.Uri, frame?: string): void {
    const report = new SurveyPanel(panel, uri, services, dist, frame);
    const key = uri.toString();
    panels.set(key, report);
    panel.iconPath = vscode.Uri.joinPath(context.extensionUri, "extension", "editor", "media", "icon.png");
    panel.onDidDispose(() => {
      if (panels.get(key) === report) panels.delete(key);
      report.dispose();
    });
  }

  function show(uri: vscode.Uri, frame?: string): void {
    const known = panels.get(uri.toString());
    if (known) return known.reveal(frame);
    const place = { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true };
    adopt(vscode.window.createWebviewPanel(VIEW, vscode.l10n.t("Survey"), place), uri, frame);
  }

  async function survey(target?: unknown, options?: unknown): Promise<void> {
    const uri = rollOf(target);
    if (!uri) return;
    if (!vscode.workspace.isTrusted)
      return void vscode.window.showErrorMessage(
        vscode.l10n.t("No scans are decoded in restricted mode. Trust this workspace to survey them."),
      );
    const report = await surveyScans(uri, services, pool);
    if (!report) return;
    if ((options as { report?: unknown } | undefined)?.report !== false) show(uri);
    await showSummary(uri, report, services);
  }

  return vscode.Disposable.from(
    registerFindings(services),
    registerFindingFixes(services),
    vscode.commands.registerCommand("rollbook.survey", survey),
    vscode.commands.registerCommand("rollbook.showSurvey", (target?: unknown, frame?: unknown) => {
      const uri = rollOf(target);
      if (uri) show(uri, typeof frame === "string" ? frame : targetOf(target).frame);
    }),
    vscode.window.registerWebviewPanelSerializer(VIEW, {
      deserializeWebviewPanel(panel, state: { document?: unknown } | undefined) {
        const uri = typeof state?.document === "string" ? vscode.Uri.parse(state.document) : undefined;
        if (uri && isRoll(uri) && !panels.has(uri.toString())) adopt(panel, uri);
        else panel.dispose();
        return Promise.resolve();
      },
    }),
  );
}

const isRoll = (uri: vscode.Uri): boolean => /\.roll\.ya?ml$/i.test(uri.path);

/** The roll that a command was called for; says what to do where there is none. */
function rollOf(target: unknown): vscode.Uri | undefined {
  const uri = targetUri(target);
  if (!uri || !isRoll(uri))
    void vscode.window.showInformationMessage(vscode.l10n.t("Open a roll’s recipe (*.roll.yaml) to survey its scans."));
  else if (fileOf(uri).startsWith("//") || uri.scheme !== "file")
    void vscode.window.showInformationMessage(
      vscode.l10n.t("A survey needs the roll and its scans as files on this computer. Save the recipe first."),
    );
  else return uri;
  return undefined;
}

/** One line at the end; scans that could not be read are named, the rest is in the report. */
async function showSummary(
  uri: vscode.Uri,
  { roll, failures }: SurveyReport,
  { log, recipes, surveys, t }: EditorServices,
): Promise<void> {
  const [failure] = failures;
  const reading = await recipes.read(await vscode.workspace.openTextDocument(uri));
  // Counted as the Rolls view and the report count them: as they hold for the recipe as it is now.
  const found = findingCount(surveys.findings(reading).length, t);
  const count =
    roll.scans.length === 1
      ? vscode.l10n.t("1 scan surveyed, {0}.", found)
      : vscode.l10n.t("{0} scans surveyed, {1}.", roll.scans.length, found);
  if (!failure) return void vscode.window.showInformationMessage(count);
  const left = vscode.l10n.t("Left out: {0}", failures.length);
  const showLog = vscode.l10n.t("Show log");
  void vscode.window
    .showWarningMessage(`${count} ${left}. ${failure.message}`, showLog)
    .then((chosen) => chosen === showLog && log.show());
}
