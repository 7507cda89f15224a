/** The HTML pages of the preview and of the roll sheet. */
import type * as vscode from "vscode";
import { builtFile, dataAttribute, keptAttribute, panelPage, translationsAttribute } from "../panels/panel-page.ts";

/**
 * SHA-256 of nothing: the toolkit makes an empty style element and fills it through the style sheet's own interface, which
 * a policy does not restrict. No element with a text of its own is let in by this.
 */
const EMPTY_STYLE = "'sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU='";

export interface RollPage {
  /** Name of the page's built script and style sheet, without their endings. */
  readonly name: string;
  readonly document: vscode.Uri;
  readonly kept: unknown;
  /** Further workers: the attribute that names each (`data-` left out), and its built file. */
  readonly workers?: Readonly<Record<string, string>>;
}

/** The preview's page. */
export const previewPage = (webview: vscode.Webview, dist: vscode.Uri, document: vscode.Uri, kept: unknown): string =>
  rollPage(webview, dist, { name: "preview", document, kept });

/**
 * A page over a roll: its script draws pictures. Nothing is fetched but the extension's own files. Without graphics, plans run on WebAssembly's
 * vectors, three times as fast as without: 'wasm-unsafe-eval' lets the page compile what its own script hands it, and no
 * script.
 */
export function rollPage(
  webview: vscode.Webview,
  dist: vscode.Uri,
  { name, document, kept, workers = {} }: RollPage,
): string {
  const own = webview.cspSource;
  const data = [
    `data-worker="${builtFile(webview, dist, "preview-worker.js")}"`,
    ...Object.entries(workers).map(([key, file]) => `data-${key}="${builtFile(webview, dist, file)}"`),
    dataAttribute("document", document.toString()),
    translationsAttribute(),
    keptAttribute(kept),
  ];
  return panelPage(webview, dist, {
    name,
    images: `${own} blob: data:`,
    styles: EMPTY_STYLE,
    scripts: "'wasm-unsafe-eval'",
    // Workers may only come from a blob here; its text is fetched from the extension's own files.
    directives: [`font-src ${own}`, "worker-src blob:", `connect-src ${own}`],
    body: `<div id="panel" ${data.join(" ")}></div>`,
  });
}
