/** Upgrading a recipe of an older version, as a quick fix at its version. */
import { wholeChange } from "../edit/changes.ts";
import { upgradeRecipe } from "../edit/upgrade.ts";
import type { TextRange } from "../path.ts";
import { CURRENT_VERSION } from "../version.ts";
import type { Reading } from "./document-cache.ts";
import { fileEdits } from "./edits.ts";
import type { FileEdits, Say } from "./types.ts";

/** A change that brings a recipe to the current version. */
export interface UpgradeFix {
  readonly title: string;
  readonly edits: FileEdits;
}

/** @returns undefined where the range is not at the version, or the version is the current one */
export function upgradeFix({ document, stock }: Reading, [start, end]: TextRange, t: Say): UpgradeFix | undefined {
  const [key, value] = [document.rangeOf(["version"], "key"), document.rangeOf(["version"], "value")];
  if (!key || !value || key[0] > end || value[1] < start) return undefined;
  const upgrade = upgradeRecipe(document, stock);
  if (!upgrade) return undefined;
  const title =
    upgrade.difference < 0.05
      ? t("Upgrade to version {0}: the pictures stay as they are", CURRENT_VERSION)
      : t("Upgrade to version {0}: ΔE00 {1} at most, mid-grey stays", CURRENT_VERSION, upgrade.difference.toFixed(1));
  return { title, edits: fileEdits(document, wholeChange(document.text, upgrade.text)) };
}
