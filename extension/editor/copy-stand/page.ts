/** The page of the copy stand's panel. */
import * as vscode from "vscode";
import { dataAttribute, panelPage, translationsAttribute } from "../panels/panel-page.ts";

/** What a panel is about: kept with the page, so that a reload of the window goes on with the session. */
export interface StandPlaces {
  readonly folder: string;
  readonly roll?: string;
  readonly stock?: string;
}

/** The page of the copy stand. Nothing is fetched: pictures come as messages. */
export function standPage(webview: vscode.Webview, dist: vscode.Uri, places: StandPlaces): string {
  return panelPage(webview, dist, {
    name: "copy-stand",
    images: "blob:",
    body: `<div id="stand" ${dataAttribute("places", places)} ${translationsAttribute()}></div>`,
  });
}
