/** Asks what to compare with. */
import * as vscode from "vscode";
import type { Revision } from "../../work/review/git/list-revisions.ts";
import type { Pool } from "../../work/pool/pool.ts";
import { gitProgram, repositoryOf } from "./git-extension.ts";
import type { ReviewRequest } from "./request.ts";
import { listRevisionsJob } from "../../work/review/jobs.ts";

interface Pick extends vscode.QuickPickItem {
  /** As git takes it. */
  readonly revision?: string;
}

interface RevisionChoice {
  /** Only commits that changed this recipe. */
  readonly file?: string;
  /** Whether the branch that HEAD left is wanted, and not the place where it did. */
  readonly left?: boolean;
}

/** A revision from the list, or one that is typed; undefined when the person turned away. */
export async function chooseRevision(
  pool: Pool,
  uri: vscode.Uri,
  title: string,
  { file, left = false }: RevisionChoice = {},
): Promise<string | undefined> {
  const folder = vscode.Uri.joinPath(uri, file === undefined ? "." : "..").fsPath;
  const program = await gitProgram();
  const picks = pool.run(listRevisionsJob, { folder, file, program }).then((revisions): Pick[] => [
    ...section(
      vscode.l10n.t("where HEAD left another branch"),
      revisions.filter(({ kind }) => kind === "base"),
      left,
    ),
    ...section(
      vscode.l10n.t("branches and tags"),
      revisions.filter(({ kind }) => kind === "branch" || kind === "tag"),
    ),
    ...section(
      file === undefined ? vscode.l10n.t("commits") : vscode.l10n.t("commits that changed this recipe"),
      revisions.filter(({ kind }) => kind === "commit"),
    ),
  ]);
  const box = vscode.window.createQuickPick<Pick>();
  box.title = title;
  box.placeholder = vscode.l10n.t("A branch, a tag, a commit; or type any revision that git understands");
  box.matchOnDescription = true;
  box.busy = true;
  box.show();
  try {
    return await new Promise<string | undefined>((resolve, reject) => {
      picks.then((items) => {
        box.items = items;
        box.busy = false;
      }, reject);
      box.onDidAccept(() => resolve(box.selectedItems[0]?.revision ?? (box.value.trim() || undefined)));
      box.onDidHide(() => resolve(undefined));
    });
  } finally {
    box.dispose();
  }
}

function section(label: string, revisions: readonly Revision[], left = false): Pick[] {
  if (revisions.length === 0) return [];
  const icons = { base: "$(git-merge)", branch: "$(git-branch)", tag: "$(tag)", commit: "$(git-commit)" };
  return [
    { label, kind: vscode.QuickPickItemKind.Separator },
    ...revisions.map(({ kind, name, of, subject, age }) => ({
      label: `${icons[kind]} ${of === undefined ? name : vscode.l10n.t("merge base with {0}", of)}`,
      description: of === undefined ? subject : `${name} ${subject}`,
      detail: kind === "commit" || kind === "base" ? age : undefined,
      revision: left && of !== undefined ? of : name,
    })),
  ];
}

/** What a review is to be about: work that is not committed, a branch since it left another, or two revisions. */
export async function chooseRange(pool: Pool, folder: vscode.Uri): Promise<ReviewRequest | undefined> {
  const repository = await repositoryOf(folder);
  const branch = repository?.state.HEAD?.name;
  const upstream = repository?.state.HEAD?.upstream;
  const chosen = await vscode.window.showQuickPick(
    [
      {
        what: "uncommitted" as const,
        label: vscode.l10n.t("What is not committed"),
        detail: vscode.l10n.t("The last commit and the working tree"),
      },
      {
        what: "branch" as const,
        label: branch
          ? vscode.l10n.t("The branch {0} since it left another", branch)
          : vscode.l10n.t("This branch since it left another"),
        detail: vscode.l10n.t("Its commits, and what is not committed"),
      },
      ...(upstream
        ? [
            {
              what: "upstream" as const,
              label: vscode.l10n.t("What is not pushed"),
              detail: `${upstream.remote}/${upstream.name}`,
            },
          ]
        : []),
      {
        what: "two" as const,
        label: vscode.l10n.t("Two revisions"),
        detail: vscode.l10n.t("Any two branches, tags or commits"),
      },
    ],
    { title: vscode.l10n.t("Review changes") },
  );
  const at = folder.fsPath;
  if (!chosen) return undefined;
  if (chosen.what === "uncommitted") return { folder: at, range: "" };
  if (chosen.what === "upstream" && upstream)
    return { folder: at, range: `${upstream.remote}/${upstream.name}`, sinceLeft: true };
  if (chosen.what === "branch") {
    const other = await chooseRevision(pool, folder, vscode.l10n.t("Since it left which branch?"), { left: true });
    return other === undefined ? undefined : { folder: at, range: other, sinceLeft: true };
  }
  const from = await chooseRevision(pool, folder, vscode.l10n.t("Review changes from…"));
  const to =
    from === undefined
      ? undefined
      : await chooseRevision(pool, folder, vscode.l10n.t("Review changes from {0} to…", from));
  return to === undefined ? undefined : { folder: at, range: `${from}..${to}` };
}
