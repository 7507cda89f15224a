/** Which level of the cascade a value comes from, and what it would be if that level said nothing. */
import type { Cascade, Stated } from "../../extension/messages.ts";
import { t } from "../translate.ts";

/** Where edits go. */
export type Scope = "frame" | "roll";
export type Level = "frame" | "roll" | "stock" | "default";

export interface Provenance {
  /** The value that the scope shows: of the frame, or of the roll. */
  readonly value: unknown;
  readonly level: Level;
  /** Where it is written; absent for a default. */
  readonly stated?: Stated;
  /** Whether the scope states it itself, so that it can be reset. */
  readonly own: boolean;
  /** What shows after a reset. */
  readonly inherited: unknown;
  readonly inheritedLevel: Level;
  /** In the roll's scope: the frame says something else, so this picture does not follow the roll. */
  readonly overridden: boolean;
}

const ORDER = ["frame", "roll", "stock"] as const;

/** The nearest of the levels from `first` on. */
function nearest(cascade: Cascade, first: number): { value: unknown; level: Level; stated?: Stated } {
  for (const level of ORDER.slice(first)) {
    const stated = cascade[level];
    if (stated) return { value: stated.value, level, stated };
  }
  return { value: cascade.fallback, level: "default" };
}

export function provenance(cascade: Cascade, scope: Scope): Provenance {
  const first = scope === "frame" ? 0 : 1;
  const inherited = nearest(cascade, first + 1);
  return {
    ...nearest(cascade, first),
    own: cascade[scope] !== undefined,
    inherited: inherited.value,
    inheritedLevel: inherited.level,
    overridden: scope === "roll" && cascade.frame !== undefined,
  };
}

/** A level as it stands beside a value. */
export function levelText(level: Level): string {
  return { frame: t("frame"), roll: t("roll"), stock: t("stock"), default: t("default") }[level];
}

/** The place in words, for tooltips. */
export function placeText({ level, stated }: Pick<Provenance, "level" | "stated">): string {
  if (!stated) return t("The default: no recipe states it");
  const { file, line } = stated;
  if (level === "frame") return t("From the frame: {0}, line {1}", file, line);
  return level === "roll"
    ? t("From the roll: {0}, line {1}", file, line)
    : t("From the stock: {0}, line {1}", file, line);
}
