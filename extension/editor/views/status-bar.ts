/** The status bar item of the recipe in the active editor. */
import * as vscode from "vscode";
import { rollSummary } from "../../recipe/language/roll-summary.ts";
import type { TextServices } from "../services.ts";
import { asShown } from "../settings.ts";
import { isRecipe } from "../uris.ts";

/** One item, shown beside a recipe alone: how many frames it has and whether something is wrong. */
export function registerStatusBar({ recipes, t }: TextServices): vscode.Disposable {
  const item = vscode.window.createStatusBarItem("rollbook.recipe", vscode.StatusBarAlignment.Right, 90);
  item.name = t("Rollbook recipe");
  item.command = "workbench.actions.view.problems";
  const update = async () => {
    const document = vscode.window.activeTextEditor?.document;
    if (!document || !isRecipe(document.uri)) return item.hide();
    const reading = await recipes.read(document);
    if (document !== vscode.window.activeTextEditor?.document) return;
    const { frames, errors, warnings, title } = rollSummary(asShown(reading, document));
    const what =
      reading.document.kind === "stock"
        ? t("Stock")
        : frames.length === 1
          ? t("1 frame")
          : t("{0} frames", frames.length);
    const counts = `${errors > 0 ? ` $(error) ${errors}` : ""}${warnings > 0 ? ` $(warning) ${warnings}` : ""}`;
    item.text = what + (counts || " $(check)");
    const missing = frames.filter((frame) => frame.missing.length > 0).length;
    const lines = [
      title ?? t("Recipe without a title"),
      ...(missing > 0 ? [t("Scans missing: {0} frames", missing)] : []),
      t("Show problems"),
    ];
    item.tooltip = lines.join("\n");
    item.accessibilityInformation = { label: t("{0}, {1} errors, {2} warnings", what, errors, warnings) };
    item.show();
  };
  void update();
  return vscode.Disposable.from(
    item,
    vscode.window.onDidChangeActiveTextEditor(() => void update()),
    recipes.onDidRead(({ document }) => {
      if (document === vscode.window.activeTextEditor?.document) void update();
    }),
  );
}
