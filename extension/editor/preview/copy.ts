/** Asks which groups of a frame's values to copy, and to which frames. */
import * as vscode from "vscode";
import type { ValueEdit } from "../../messages.ts";
import type { ValidRoll } from "./roll-state.ts";
import { copyEdits, type CopyGroup, groupsOf } from "./copying.ts";

/** A frame's own values, and which groups of them are meant. */
export interface CopiedValues {
  readonly own: unknown;
  readonly groups: readonly CopyGroup[];
}

/** Asks which groups of a frame's own values are meant; undefined where it has none, or somebody steps back. */
export async function askGroups({ roll }: ValidRoll, frame: string, title: string): Promise<CopiedValues | undefined> {
  const frames = (roll.value as { frames?: Record<string, unknown> } | undefined)?.frames;
  const own = frames && Object.hasOwn(frames, frame) ? frames[frame] : undefined;
  const groups = groupsOf(own);
  if (groups.length === 0) {
    void vscode.window.showInformationMessage(
      vscode.l10n.t("Frame {0} states no values of its own, so there is nothing to copy.", frame),
    );
    return undefined;
  }
  const what = await vscode.window.showQuickPick(
    groups.map((group) => ({ label: vscode.l10n.t(group.label), picked: group.usual || groups.length === 1, group })),
    { canPickMany: true, ignoreFocusOut: true, title, placeHolder: vscode.l10n.t("Which of its own values") },
  );
  return what?.length ? { own, groups: what.map((item) => item.group) } : undefined;
}

/** Asks what of a frame goes to which frames; undefined where somebody steps back. */
export async function askCopy(
  valid: ValidRoll,
  frame: string,
): Promise<{ edits: ValueEdit[]; frames: string[] } | undefined> {
  const copied = await askGroups(valid, frame, vscode.l10n.t("Copy from frame {0} (1/2)", frame));
  if (!copied) return undefined;
  const others = valid.resolved.frames.filter((f) => f.id !== frame);
  const to = await vscode.window.showQuickPick(
    others.map((f) => ({ label: f.id, description: f.scans.map((s) => s.name).join(", "), detail: f.note })),
    {
      canPickMany: true,
      ignoreFocusOut: true,
      matchOnDescription: true,
      title: vscode.l10n.t("Copy from frame {0} (2/2)", frame),
      placeHolder: vscode.l10n.t("To which frames"),
    },
  );
  if (!to?.length) return undefined;
  const ids = to.map((item) => item.label);
  return { edits: copyEdits(copied.own, copied.groups, ids), frames: ids };
}
