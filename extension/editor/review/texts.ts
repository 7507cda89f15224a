/** Recipes as a revision had them, as documents that can be read and compared but not written. */
import * as vscode from "vscode";

const SCHEME = "rollbook-review";

/** Serves texts by address; each panel has addresses of its own. */
export class ReviewTexts implements vscode.TextDocumentContentProvider, vscode.Disposable {
  readonly #texts = new Map<string, string>();
  readonly #registration = vscode.workspace.registerTextDocumentContentProvider(SCHEME, this);

  provideTextDocumentContent(uri: vscode.Uri): string {
    return this.#texts.get(uri.toString()) ?? "";
  }

  /** The document of a text; a file that there was not is empty. */
  document(panel: number, side: "before" | "after", file: string, text: string): vscode.Uri {
    const uri = vscode.Uri.from({ scheme: SCHEME, authority: side, path: `/${file}`, query: String(panel) });
    this.#texts.set(uri.toString(), text);
    return uri;
  }

  forget(panel: number): void {
    for (const key of this.#texts.keys()) if (vscode.Uri.parse(key).query === String(panel)) this.#texts.delete(key);
  }

  dispose(): void {
    this.#registration.dispose();
    this.#texts.clear();
  }
}
