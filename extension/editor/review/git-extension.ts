/** The editor's own git extension, as far as it is there: which git it found, and the branches it knows. */
import * as vscode from "vscode";

/** The part of the extension's interface (version 1) that is used here; vscode's sources document it in git.d.ts. */
interface GitInterface {
  readonly git: { readonly path: string };
  getRepository(uri: vscode.Uri): GitRepository | null;
}

export interface GitRepository {
  readonly rootUri: vscode.Uri;
  readonly state: {
    readonly HEAD?: { readonly name?: string; readonly upstream?: { readonly remote: string; readonly name: string } };
  };
}

async function gitInterface(): Promise<GitInterface | undefined> {
  const found = vscode.extensions.getExtension<{ readonly enabled?: boolean; getAPI(version: 1): GitInterface }>(
    "vscode.git",
  );
  try {
    const git = found && (found.isActive ? found.exports : await found.activate());
    return git && git.enabled !== false ? git.getAPI(1) : undefined;
  } catch {
    return undefined; // switched off, or without git: the command is asked instead, and says what is missing
  }
}

/** The git command that the editor uses; undefined for the one on the path. */
export const gitProgram = async (): Promise<string | undefined> => (await gitInterface())?.git.path;

/** The repository that a file lies in, as the editor knows it. */
export async function repositoryOf(uri: vscode.Uri): Promise<GitRepository | undefined> {
  return (await gitInterface())?.getRepository(uri) ?? undefined;
}
