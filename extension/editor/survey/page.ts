import { randomBytes } from "node:crypto";
import * as vscode from "vscode";
import { escape } from "../../work/survey/survey-page.ts";

/** The report's page: only its own script runs, nothing is fetched, and pictures stand in the text that it is sent. */
export function pageOf(webview: vscode.Webview, dist: vscode.Uri, document: vscode.Uri): string {
  const nonce = randomBytes(16).toString("base64");
  const at = (name: string): string => escape(webview.asWebviewUri(vscode.Uri.joinPath(dist, name)).toString());
  const policy = [
    "default-src 'none'",
    "img-src data:",
    `style-src ${webview.cspSource}`,
    `script-src 'nonce-${nonce}'`,
    "base-uri 'none'",
    "form-action 'none'",
  ];
  return `<!doctype html>
<html lang="${escape(vscode.env.language)}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${escape(policy.join("; "))}">
<meta name="viewport" content="width=device-width">
<link rel="stylesheet" href="${at("survey-panel.css")}">
<title>Rollbook</title>
</head>
<body data-document="${escape(document.toString())}">
<header>
<h1></h1>
<div class="actions">
<button type="button" data-do="again">${escape(vscode.l10n.t("Survey again"))}</button>
<button type="button" data-do="save" hidden>${escape(vscode.l10n.t("Save report…"))}</button>
</div>
</header>
<div id="notices" role="status"></div>
<main></main>
<script type="module" nonce="${nonce}" src="${at("survey-panel.js")}"></script>
</body>
</html>`;
}
