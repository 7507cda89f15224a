import { randomBytes } from "node:crypto";
import * as vscode from "vscode";

/**
 * SHA-256 of nothing: the toolkit makes an empty style element and fills it through the style sheet's own interface, which
 * a policy does not restrict. No element with a text of its own is let in by this.
 */
const EMPTY_STYLE = "'sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU='";

/**
 * The panel's page. Only its own script runs, no text is evaluated, and nothing is fetched but the extension's own files.
 * Without graphics, plans run on WebAssembly's vectors, three times as fast as without: 'wasm-unsafe-eval' lets the page
 * compile what its own script hands it, and no script.
 */
export function pageOf(webview: vscode.Webview, dist: vscode.Uri, document: vscode.Uri, kept: unknown): string {
  const nonce = randomBytes(16).toString("base64");
  const at = (name: string): string =>
    escapeAttribute(webview.asWebviewUri(vscode.Uri.joinPath(dist, name)).toString());
  const own = webview.cspSource;
  const policy = [
    "default-src 'none'",
    `img-src ${own} blob: data:`,
    `style-src ${own} ${EMPTY_STYLE}`,
    `font-src ${own}`,
    `script-src 'nonce-${nonce}' 'wasm-unsafe-eval'`,
    // Workers may only come from a blob here; its text is fetched from the extension's own files.
    "worker-src blob:",
    `connect-src ${own}`,
  ].join("; ");
  return `<!doctype html>
<html lang="${escapeAttribute(vscode.env.language)}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${escapeAttribute(policy)}">
<meta name="viewport" content="width=device-width">
<link rel="stylesheet" href="${at("preview.css")}">
<title>Rollbook</title>
</head>
<body>
<div id="panel" data-worker="${at("preview-worker.js")}" data-document="${escapeAttribute(document.toString())}" data-words="${wordsOf()}" data-kept="${keptOf(kept)}"></div>
<script type="module" nonce="${nonce}" src="${at("preview.js")}"></script>
</body>
</html>`;
}

/** The editor's translations as the page takes them; none where the editor speaks English. */
export const wordsOf = (): string => escapeAttribute(JSON.stringify(vscode.l10n.bundle ?? {}));

/** What was kept of a page over a reload (panel-memory.ts), as the page takes it. */
export const keptOf = (kept: unknown): string => escapeAttribute(JSON.stringify(kept ?? null));

export const escapeAttribute = (text: string): string =>
  text.replaceAll("&", "&amp;").replaceAll('"', "&quot;").replaceAll("<", "&lt;").replaceAll(">", "&gt;");
