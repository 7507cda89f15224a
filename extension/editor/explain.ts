/** Opens the documentation's entry for the code of a problem or a finding. */
import * as vscode from "vscode";
import { problemKinds } from "../recipe/problems.ts";
import type { TextServices } from "./services.ts";

/** A page with an entry for each code. It lies beside the manifest in an installed extension, in docs/ in the project. */
interface Page {
  /** Documents of this scheme hold one entry each. */
  readonly scheme: string;
  readonly name: string;
}

const problems: Page = { scheme: "rollbook-problem", name: "diagnostics.md" };
const findings: Page = { scheme: "rollbook-finding", name: "findings.md" };

/**
 * What a problem's code links to. The link in a hover opens documents alone, never commands, and the page itself is in
 * the extension: so each entry is a document of its own.
 */
export const explanationOf = (code: string): vscode.Uri => entryUri(problems, code);

/** The same for what a survey found. */
export const explanationOfFinding = (code: string): vscode.Uri => entryUri(findings, code);

const entryUri = ({ scheme }: Page, code: string): vscode.Uri => vscode.Uri.from({ scheme, path: `/${code}.md` });

/** Explains problems and findings: each code's entry as a document, and the page with all problems. */
export function registerExplain(context: vscode.ExtensionContext, { log, t }: TextServices): vscode.Disposable {
  const missing = t("The page about problems is missing from the extension. Install it again.");

  async function find({ name }: Page): Promise<vscode.Uri | undefined> {
    for (const place of [name, `docs/${name}`]) {
      const uri = vscode.Uri.joinPath(context.extensionUri, place);
      try {
        await vscode.workspace.fs.stat(uri);
        return uri;
      } catch {
        continue;
      }
    }
    log.error(`${name} is not in ${context.extensionUri.toString()}.`);
    return undefined;
  }

  const provide = (page: Page): vscode.Disposable =>
    vscode.workspace.registerTextDocumentContentProvider(page.scheme, {
      async provideTextDocumentContent({ path }) {
        const uri = await find(page);
        if (!uri) return missing;
        const text = new TextDecoder().decode(await vscode.workspace.fs.readFile(uri));
        return entryOf(text, path.slice(1).replace(/\.md$/, "")) ?? missing;
      },
    });

  return vscode.Disposable.from(
    provide(problems),
    provide(findings),
    vscode.commands.registerCommand("rollbook.explainProblem", async (code?: unknown) => {
      const known = typeof code === "string" && Object.hasOwn(problemKinds, code) ? code : await pick(t);
      if (known === undefined) return;
      const uri = await find(problems);
      if (uri) await vscode.commands.executeCommand("markdown.showPreview", uri.with({ fragment: known }));
      else void vscode.window.showErrorMessage(missing);
    }),
  );
}

/** One entry of the page, from its heading to the next. */
function entryOf(page: string, code: string): string | undefined {
  const entry = page.split(/^(?=##{1,2} )/m).find((part) => part.startsWith(`### ${code}\n`));
  return entry && `${entry.trimEnd()}\n`;
}

async function pick(t: TextServices["t"]): Promise<string | undefined> {
  const items = Object.entries(problemKinds).map(([code, { title }]) => ({ label: title, description: code }));
  const chosen = await vscode.window.showQuickPick(items, {
    title: t("Explain a problem"),
    placeHolder: t("Choose a problem"),
    matchOnDescription: true,
  });
  return chosen?.description;
}
