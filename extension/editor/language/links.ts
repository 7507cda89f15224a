/** Registers links to the files that a recipe names. */
import * as vscode from "vscode";
import { links } from "../../recipe/language/links.ts";
import { toRange } from "../ranges.ts";
import type { TextServices } from "../services.ts";
import { recipeSelector, uriOf } from "../uris.ts";

/** A frame's scan opens the frame in the preview, which can show it; other files open as they are. */
export function registerLinks({ recipes, makesPictures, t }: TextServices): vscode.Disposable {
  const tooltips = {
    stock: t("Open the stock"),
    scan: t("Open the scan"),
    profile: t("Open the profile"),
  };
  return vscode.languages.registerDocumentLinkProvider(recipeSelector, {
    async provideDocumentLinks(document, token) {
      const reading = await recipes.read(document);
      if (token.isCancellationRequested) return [];
      return links(reading.document, recipes.files)
        .filter(({ file }) => !reading.missing.has(file))
        .map(({ range, file, kind }) => {
          const { path } = reading.document.pathAt(document.offsetAt(toRange(range).start));
          const frame = path[0] === "frames" ? path[1] : undefined;
          if (makesPictures && kind === "scan" && frame !== undefined) {
            const link = new vscode.DocumentLink(toRange(range), previewOf(document.uri, String(frame)));
            link.tooltip = t("Show frame {0} in the preview", String(frame));
            return link;
          }
          const link = new vscode.DocumentLink(toRange(range), uriOf(file));
          link.tooltip = tooltips[kind];
          return link;
        });
    },
  });
}

const previewOf = (roll: vscode.Uri, frame: string): vscode.Uri =>
  vscode.Uri.from({
    scheme: "command",
    path: "rollbook.openPreview",
    query: JSON.stringify([roll.toString(), frame]),
  });
