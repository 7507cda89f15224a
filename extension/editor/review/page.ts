import { randomBytes } from "node:crypto";
import type * as vscode from "vscode";
import { env, Uri } from "vscode";
import { escapeAttribute, keptOf, wordsOf } from "../preview/page.ts";
import type { ReviewRequest } from "./request.ts";

/** The panel's page: only its own script runs, and nothing is fetched. Pictures come in messages and are shown from memory. */
export function pageOf(webview: vscode.Webview, dist: vscode.Uri, request: ReviewRequest, kept: unknown): string {
  const nonce = randomBytes(16).toString("base64");
  const at = (name: string): string => escapeAttribute(webview.asWebviewUri(Uri.joinPath(dist, name)).toString());
  const policy = [
    "default-src 'none'",
    "img-src blob:",
    `style-src ${webview.cspSource}`,
    `script-src 'nonce-${nonce}'`,
  ];
  return `<!doctype html>
<html lang="${escapeAttribute(env.language)}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${escapeAttribute(policy.join("; "))}">
<meta name="viewport" content="width=device-width">
<link rel="stylesheet" href="${at("review-panel.css")}">
<title>Rollbook</title>
</head>
<body>
<div id="review" data-request="${escapeAttribute(JSON.stringify(request))}" data-words="${wordsOf()}" data-kept="${keptOf(kept)}"></div>
<script type="module" nonce="${nonce}" src="${at("review-panel.js")}"></script>
</body>
</html>`;
}
