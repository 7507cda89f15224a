/** What the sheet keeps over a reload: how one looks at the roll. Nothing of the recipe. */
import {
  type Arrangement,
  CHOICES,
  EXPOSURES,
  FINDINGS,
  NO_FILTER,
  ORDERS,
  RANKS,
} from "../state/sheet/arrangement.ts";
import { type Size, SIZES } from "../state/sheet/sheet-layout.ts";

export interface SheetUi extends Arrangement {
  readonly size: Size;
  readonly focus?: string;
  /** Whether sliders change values by an amount, or set them. */
  readonly relative: boolean;
}

export const FRESH_SHEET: SheetUi = { size: "small", order: "film", filter: NO_FILTER, relative: true };

const oneOf = <T extends string>(value: unknown, all: readonly T[], otherwise: T): T =>
  all.includes(value as T) ? (value as T) : otherwise;

/** Reads what was kept; whatever is missing or wrong (an older version, a damaged store) is as fresh. */
export function restoredSheet(kept: unknown): SheetUi {
  if (typeof kept !== "object" || kept === null) return FRESH_SHEET;
  const { size, focus, order, relative, filter } = kept as Partial<Record<keyof SheetUi, unknown>>;
  const f = (typeof filter === "object" && filter !== null ? filter : {}) as Record<string, unknown>;
  return {
    size: oneOf(size, SIZES, FRESH_SHEET.size),
    order: oneOf(order, ORDERS, FRESH_SHEET.order),
    relative: relative !== false,
    filter: {
      choice: oneOf(f["choice"], CHOICES, "any"),
      rank: oneOf(f["rank"], RANKS, "any"),
      exposure: oneOf(f["exposure"], EXPOSURES, "any"),
      findings: oneOf(f["findings"], FINDINGS, "any"),
    },
    ...(typeof focus === "string" ? { focus } : {}),
  };
}
