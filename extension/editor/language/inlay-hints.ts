/** Registers inlay hints. */
import * as vscode from "vscode";
import { inlays } from "../../recipe/language/inlays.ts";
import { toPosition } from "../ranges.ts";
import type { TextServices } from "../services.ts";
import { setting } from "../settings.ts";
import { recipeSelector, uriOf } from "../uris.ts";

export function registerInlayHints({ recipes, t }: TextServices): vscode.Disposable {
  const changed = new vscode.EventEmitter<void>();
  return vscode.Disposable.from(
    changed,
    recipes.onDidRead(() => changed.fire()),
    vscode.languages.registerInlayHintsProvider(recipeSelector, {
      onDidChangeInlayHints: changed.event,
      async provideInlayHints(document, range, token) {
        if (!setting("inlayHints.inherited", document)) return [];
        const reading = await recipes.read(document);
        if (token.isCancellationRequested) return [];
        return inlays(reading, [range.start.line, range.end.line], t).map(({ at, label, tooltip, origin }) => {
          const part = new vscode.InlayHintLabelPart(label);
          part.tooltip = tooltip;
          if (origin) {
            const place = new vscode.Position(origin.line - 1, origin.column - 1);
            part.location = new vscode.Location(uriOf(origin.file), place);
          }
          const hint = new vscode.InlayHint(toPosition(at), [part]);
          hint.paddingLeft = true;
          return hint;
        });
      },
    }),
  );
}
