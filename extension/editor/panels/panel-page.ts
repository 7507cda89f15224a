/** The page of a panel: its own script and style sheet, and what the panel hands over in attributes. */
import { randomBytes } from "node:crypto";
import * as vscode from "vscode";
import { escapeMarkup } from "../../recipe/plain-text.ts";
import { htmlPage } from "../../work/files/html-page.ts";

export interface PanelPage {
  /** Name of the panel's built script and style sheet, without their endings. */
  readonly name: string;
  /** Sources of pictures, as the policy writes them. */
  readonly images: string;
  /** What else the page may use: sources of styles and scripts beside its own, and further directives. */
  readonly styles?: string;
  readonly scripts?: string;
  readonly directives?: readonly string[];
  /** Attributes of the body, and what stands in it before the script. HTML; values in it are escaped by its author. */
  readonly attributes?: string;
  readonly body: string;
}

/** The page: only its own script runs, no text is evaluated, and nothing is fetched but what the panel states. */
export function panelPage(webview: vscode.Webview, dist: vscode.Uri, page: PanelPage): string {
  const nonce = randomBytes(16).toString("base64");
  const { name, styles = "", scripts = "", directives = [], attributes } = page;
  return htmlPage({
    language: vscode.env.language,
    title: "Rollbook",
    directives: [
      `img-src ${page.images}`,
      `style-src ${webview.cspSource} ${styles}`.trimEnd(),
      `script-src 'nonce-${nonce}' ${scripts}`.trimEnd(),
      ...directives,
    ],
    head: `<link rel="stylesheet" href="${builtFile(webview, dist, `${name}.css`)}">`,
    attributes,
    body: `${page.body}
<script type="module" nonce="${nonce}" src="${builtFile(webview, dist, `${name}.js`)}"></script>`,
  });
}

/** Address of one of the extension's own built files, as an attribute's value. */
export const builtFile = (webview: vscode.Webview, dist: vscode.Uri, name: string): string =>
  escapeMarkup(webview.asWebviewUri(vscode.Uri.joinPath(dist, name)).toString());

/** A `data-` attribute that carries a value: a text as it is, anything else as JSON. */
export const dataAttribute = (name: string, value: unknown): string =>
  `data-${name}="${escapeMarkup(typeof value === "string" ? value : JSON.stringify(value ?? null))}"`;

/** The editor's translations as a page takes them; none where the editor speaks English. */
export const translationsAttribute = (): string => dataAttribute("words", vscode.l10n.bundle ?? {});

/** What was kept of a page over a reload (panel-memory.ts), as the page takes it. */
export const keptAttribute = (kept: unknown): string => dataAttribute("kept", kept);
