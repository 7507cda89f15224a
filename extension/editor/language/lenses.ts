/** Registers the commands above frames. */
import * as vscode from "vscode";
import { countByFrame, findingCount } from "../../recipe/language/findings.ts";
import { type FrameLens, frameLenses } from "../../recipe/language/lenses.ts";
import { toRange } from "../ranges.ts";
import type { TextServices } from "../services.ts";
import { asShown, setting } from "../settings.ts";
import { recipeSelector } from "../uris.ts";

/** Commands of other parts that a frame's lens offers where they are there. */
const offered = {
  preview: "rollbook.openPreview",
  compare: "rollbook.compareFrame",
  survey: "rollbook.showSurvey",
} as const;

class LineLens extends vscode.CodeLens {
  readonly make: () => vscode.Command;

  constructor(range: vscode.Range, make: () => vscode.Command) {
    super(range);
    this.make = make;
  }
}

export function registerLenses({ recipes, surveys, makesPictures, t }: TextServices): vscode.Disposable {
  const changed = new vscode.EventEmitter<void>();
  const provider: vscode.CodeLensProvider<LineLens> = {
    onDidChangeCodeLenses: changed.event,
    async provideCodeLenses(document, token) {
      if (!setting("codeLens.frames", document)) return [];
      const [reading, commands] = await Promise.all([recipes.read(document), vscode.commands.getCommands(true)]);
      if (token.isCancellationRequested) return [];
      const known = new Set(commands);
      const found = countByFrame(surveys.findings(reading));
      return frameLenses(reading.document, asShown(reading, document).problems).flatMap((lens) =>
        lensesOf(lens, document.uri, known, found.get(lens.frame) ?? 0),
      );
    },
    resolveCodeLens(lens) {
      lens.command = lens.make();
      return lens;
    },
  };
  return vscode.Disposable.from(
    changed,
    recipes.onDidRead(() => changed.fire()),
    surveys.onDidChange(() => changed.fire()),
    vscode.workspace.onDidGrantWorkspaceTrust(() => changed.fire()),
    vscode.languages.registerCodeLensProvider(recipeSelector, provider),
  );

  function lensesOf(
    { frame, range, problems }: FrameLens,
    uri: vscode.Uri,
    known: ReadonlySet<string>,
    findings: number,
  ): LineLens[] {
    const at = toRange(range);
    const lenses: LineLens[] = [];
    if (makesPictures && known.has(offered.preview) && vscode.workspace.isTrusted)
      lenses.push(new LineLens(at, () => ({ title: t("Preview"), command: offered.preview, arguments: [uri, frame] })));
    if (makesPictures && known.has(offered.compare) && vscode.workspace.isTrusted)
      lenses.push(new LineLens(at, () => ({ title: t("Compare"), command: offered.compare, arguments: [uri, frame] })));
    if (findings > 0 && known.has(offered.survey))
      lenses.push(
        new LineLens(at, () => ({
          title: findingCount(findings, t),
          command: offered.survey,
          arguments: [uri, frame],
        })),
      );
    const first = problems[0];
    if (first)
      lenses.push(
        new LineLens(at, () => ({
          title: problems.length === 1 ? t("1 problem") : t("{0} problems", problems.length),
          command: "rollbook.showProblem",
          arguments: [uri, first.range[0]],
        })),
      );
    return lenses;
  }
}
