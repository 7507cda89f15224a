/** The page of the review's panel. */
import type * as vscode from "vscode";
import { dataAttribute, keptAttribute, panelPage, translationsAttribute } from "../panels/panel-page.ts";
import type { ReviewRequest } from "./request.ts";

/** The review's page. Nothing is fetched: pictures come in messages and are shown from memory. */
export function reviewPage(webview: vscode.Webview, dist: vscode.Uri, request: ReviewRequest, kept: unknown): string {
  const data = [dataAttribute("request", request), translationsAttribute(), keptAttribute(kept)];
  return panelPage(webview, dist, {
    name: "review-panel",
    images: "blob:",
    body: `<div id="review" ${data.join(" ")}></div>`,
  });
}
