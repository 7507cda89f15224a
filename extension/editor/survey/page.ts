/** The page of the survey's panel. */
import * as vscode from "vscode";
import { escapeMarkup } from "../../recipe/plain-text.ts";
import { dataAttribute, panelPage } from "../panels/panel-page.ts";

/** The page of the survey's report. Nothing is fetched: pictures stand in the text that it is sent. */
export function reportPage(webview: vscode.Webview, dist: vscode.Uri, document: vscode.Uri): string {
  return panelPage(webview, dist, {
    name: "survey-panel",
    images: "data:",
    attributes: dataAttribute("document", document.toString()),
    body: `<header>
<h1></h1>
<div class="actions">
<button type="button" data-do="again">${escapeMarkup(vscode.l10n.t("Survey again"))}</button>
<button type="button" data-do="save" hidden>${escapeMarkup(vscode.l10n.t("Save report…"))}</button>
</div>
</header>
<div id="notices" role="status"></div>
<main></main>`,
  });
}
