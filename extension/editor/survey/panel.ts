/** The panel with the report of a roll's last survey. */
import { errorText } from "../../scans/files/system-errors.ts";
import * as vscode from "vscode";
import type { SurveyEvents, SurveyPageEvents } from "../../messages.ts";
import type { PlacedFinding } from "../../recipe/language/findings.ts";
import type { Reading } from "../../recipe/language/document-cache.ts";
import { createEmitter, dispatchEvent, type EventHandlers } from "../../rpc.ts";
import { HTML_ENDINGS, openOutput, sealed } from "../../work/files/output-file.ts";
import { type NamePlace, surveyBody, surveyPage } from "../../work/survey/survey-page.ts";
import type { SurveyReport } from "../../work/survey/survey-roll.ts";
import { toRange } from "../ranges.ts";
import type { EditorServices } from "../services.ts";
import { fileOf } from "../uris.ts";
import { reportPage } from "./page.ts";
import { escapeMarkup } from "../../recipe/plain-text.ts";

/** The report of one roll's last survey, beside its text. It shows what still holds, and follows text and files. */
export class SurveyPanel implements vscode.Disposable {
  readonly #panel: vscode.WebviewPanel;
  readonly #uri: vscode.Uri;
  readonly #services: EditorServices;
  readonly #subscriptions: vscode.Disposable[];
  /** The findings as the page numbers them. */
  #shown: readonly PlacedFinding[] = [];
  #frame: string | undefined;
  #last = "";
  readonly #emit = createEmitter<SurveyEvents>((message) => void this.#panel.webview.postMessage(message));
  readonly #events: EventHandlers<SurveyPageEvents> = {
    ready: () => void this.#run(() => this.#start()),
    jump: (place) => void this.#run(() => this.#jump(place)),
    again: () => void this.#run(() => vscode.commands.executeCommand("rollbook.survey", this.#uri)),
    save: () => void this.#run(() => this.#save()),
  };

  constructor(panel: vscode.WebviewPanel, uri: vscode.Uri, services: EditorServices, dist: vscode.Uri, frame?: string) {
    this.#panel = panel;
    this.#uri = uri;
    this.#services = services;
    this.#frame = frame;
    const roll = fileOf(uri);
    this.#subscriptions = [
      panel.webview.onDidReceiveMessage((message) => dispatchEvent(message, this.#events)),
      services.surveys.onDidChange((changed) => changed === roll && void this.#show()),
      services.recipes.onDidRead(({ reading }) => reading.document.file === roll && void this.#show()),
    ];
    panel.webview.options = { enableScripts: true, localResourceRoots: [dist] };
    panel.webview.html = reportPage(panel.webview, dist, uri);
  }

  /** Brings the panel to the front, at a frame. */
  reveal(frame?: string): void {
    this.#panel.reveal(undefined, true);
    this.#frame = frame;
    this.#goToFrame();
  }

  dispose(): void {
    for (const one of this.#subscriptions) one.dispose();
  }

  #goToFrame(): void {
    if (this.#frame !== undefined) this.#emit("goTo", { frame: this.#frame });
  }

  /** Does one thing that the page wants; a failure is logged and shown. */
  async #run(work: () => Thenable<unknown>): Promise<void> {
    try {
      await work();
    } catch (error) {
      this.#services.log.error(error instanceof Error ? error : String(error));
      void vscode.window.showErrorMessage(errorText(error));
    }
  }

  async #start(): Promise<void> {
    this.#last = "";
    await this.#services.surveys.recall(fileOf(this.#uri));
    await this.#show();
    this.#goToFrame();
    this.#frame = undefined;
  }

  #read(): Promise<Reading> {
    return Promise.resolve(vscode.workspace.openTextDocument(this.#uri)).then((document) =>
      this.#services.recipes.read(document),
    );
  }

  async #show(): Promise<void> {
    const { surveys } = this.#services;
    const reading = await this.#read();
    // What an unfinished line means is a guess: the page stays as it is.
    if (!reading.document.wellFormed && this.#last !== "") return;
    const report = surveys.of(fileOf(this.#uri));
    this.#shown = surveys.findings(reading);
    const title = vscode.l10n.t("Survey: {0}", titleOf(reading, this.#uri));
    this.#panel.title = title;
    const notices = [
      ...(report
        ? []
        : [vscode.l10n.t("No survey of this roll is stored. Survey its scans to see how good they are.")]),
      ...(surveys.isStale(fileOf(this.#uri))
        ? [vscode.l10n.t("Scans have changed since; what was found in them is left out. Survey them again.")]
        : []),
    ];
    const body = report ? surveyBody(this.#holding(report), { name: button, t: this.#services.t }) : "";
    const text = JSON.stringify([title, notices, body]);
    if (text === this.#last) return;
    this.#last = text;
    this.#emit("show", { title, body, notices, surveyed: report !== undefined });
  }

  /** The report with the findings alone that hold for text and files as they are. */
  #holding(report: SurveyReport): SurveyReport {
    return { ...report, findings: this.#shown.map(({ finding }) => finding) };
  }

  async #jump({ frame, finding }: { readonly frame?: string; readonly finding?: number }): Promise<void> {
    const reading = await this.#read();
    const wanted = finding === undefined ? undefined : this.#shown[finding]?.finding;
    const placed = wanted && this.#services.surveys.findings(reading).find((one) => one.finding === wanted);
    const { document } = reading;
    const key = frame === undefined ? undefined : document.rangeOf(["frames", frame], "key");
    const text = await vscode.workspace.openTextDocument(this.#uri);
    const selection = placed
      ? toRange(placed.range)
      : key && new vscode.Range(text.positionAt(key[0]), text.positionAt(key[1]));
    const open = vscode.window.visibleTextEditors.find((editor) => editor.document === text);
    await vscode.window.showTextDocument(text, {
      viewColumn: open?.viewColumn ?? vscode.ViewColumn.One,
      ...(selection ? { selection } : {}),
    });
  }

  async #save(): Promise<void> {
    const report = this.#services.surveys.of(fileOf(this.#uri));
    if (!report) return;
    const name = this.#uri.path.replace(/^.*\//, "").replace(/\.roll\.ya?ml$/i, "");
    const target = await vscode.window.showSaveDialog({
      defaultUri: vscode.Uri.joinPath(this.#uri, "..", `${name}-survey.html`),
      filters: { HTML: ["html"] },
      title: vscode.l10n.t("Save the report as one file"),
    });
    if (!target) return;
    const page = surveyPage(
      titleOf(await this.#read(), this.#uri),
      this.#holding(report),
      this.#services.t,
      vscode.env.language,
    );
    // The dialog has asked whether to replace a file.
    await openOutput({ file: target.fsPath, endings: HTML_ENDINGS, overwrite: true }).write(sealed(page));
  }
}

const titleOf = ({ resolved }: Reading, uri: vscode.Uri): string =>
  resolved.title ?? vscode.workspace.asRelativePath(uri);

/** A place in the report leads to its line in the recipe. */
const button: NamePlace = (words, { frame, finding }) => {
  const data = [
    ...(frame === undefined ? [] : [` data-frame="${escapeMarkup(frame)}"`]),
    ...(finding === undefined ? [] : [` data-finding="${finding}"`]),
  ];
  return `<button type="button" class="place"${data.join("")}>${escapeMarkup(words)}</button>`;
};
