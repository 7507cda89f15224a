/** Copying a frame's own values to other frames: what can be copied, and the edits that do it. */
import type { ValueEdit, RecipePath } from "../../messages.ts";

/** Values that belong together when they are copied. */
export interface CopyGroup {
  readonly label: string;
  readonly paths: readonly RecipePath[];
  /** Chosen unless somebody says otherwise. */
  readonly usual: boolean;
}

/** Marks a label for translators (l10n/extract.mjs); whoever shows it translates it. */
const t = (english: string): string => english;

const GROUPS: readonly CopyGroup[] = [
  { label: t("Exposure"), paths: [["positive", "exposure"]], usual: false },
  { label: t("Filtration"), paths: [["positive", "filtration"]], usual: true },
  {
    label: t("Tone"),
    paths: ["contrast", "toe", "shoulder", "black", "saturation"].map((key) => ["positive", key]),
    usual: true,
  },
  { label: t("Toning"), paths: [["positive", "toning"]], usual: true },
  { label: t("Curve"), paths: [["positive", "curve"]], usual: true },
  { label: t("Base and film"), paths: [["negative"]], usual: false },
  { label: t("Crop and tilt"), paths: [["area"]], usual: false },
  { label: t("Turn and mirror"), paths: [["turn"], ["mirror"]], usual: false },
];

function valueAt(value: unknown, path: RecipePath): unknown {
  return path.reduce<unknown>(
    (v, key) =>
      typeof v === "object" && v !== null && Object.hasOwn(v, key) ? (v as Record<string, unknown>)[key] : undefined,
    value,
  );
}

/** The groups that a frame states something of itself. */
export function groupsOf(frame: unknown): readonly CopyGroup[] {
  return GROUPS.map((g) => ({ ...g, paths: g.paths.filter((p) => valueAt(frame, p) !== undefined) })).filter(
    (g) => g.paths.length > 0,
  );
}

export function copyEdits(frame: unknown, groups: readonly CopyGroup[], targets: readonly string[]): ValueEdit[] {
  return targets.flatMap((id) =>
    groups.flatMap((g) => g.paths.map((path) => ({ path: ["frames", id, ...path], value: valueAt(frame, path) }))),
  );
}
