/** What the panel keeps over a reload: where one is and how one looks at it. Nothing of the recipe. */
import type { View } from "../render/view-plans.ts";
import type { Point } from "./affine.ts";
import type { Scope } from "./cascade.ts";
import type { Viewport } from "./frame-transform.ts";

export type Tool = "look" | "base" | "neutral" | "grey" | "crop" | "spots" | "pin" | "local";
export type Compare = "off" | "wipe" | "beside";
/**
 * What the picture is compared with: another view, the frame without its own print values, a reference state, or itself without
 * its proof.
 */
export type Against = "negative" | "density" | "inherited" | "kept" | "unproofed";

export interface UiState {
  readonly frame?: string;
  readonly view: View;
  readonly compare: Compare;
  readonly against: Against;
  /** Place of the wipe, 0 … 1 of the picture's room. */
  readonly wipe: number;
  readonly viewport: Viewport;
  readonly scope: Scope;
  readonly warn: boolean;
  /** Whether the print is shown as it looks on paper, and of which output; the roll's first that prints where absent. */
  readonly proof: boolean;
  readonly proofed?: string;
  readonly tool: Tool;
  /** Pinned readings by frame, in fractions of the scan. */
  readonly pins: Readonly<Record<string, readonly Point[]>>;
  /** Sections of the panel that are closed. */
  readonly closed: readonly string[];
  /** CSS pixels that the values take beside the picture, or below it; absent: as much as is usual. */
  readonly sizes: { readonly side?: number; readonly below?: number };
  /** Whether the strip of frames is folded away. */
  readonly foldedStrip: boolean;
}

export const FRESH: UiState = {
  view: "print",
  compare: "off",
  against: "negative",
  wipe: 0.5,
  viewport: { zoom: "fit", centre: [0.5, 0.5] },
  scope: "frame",
  warn: false,
  proof: false,
  tool: "look",
  pins: {},
  closed: ["toning"],
  sizes: {},
  foldedStrip: false,
};

const isOneOf = <T extends string>(value: unknown, all: readonly T[], fallback: T): T =>
  all.includes(value as T) ? (value as T) : fallback;
const isShare = (v: unknown): v is number => typeof v === "number" && v >= 0 && v <= 1;
const isPoint = (v: unknown): v is Point => Array.isArray(v) && v.length === 2 && v.every(isShare);

/** Reads a reference state; whatever is missing or wrong (an older version, a damaged store) is as fresh. */
export function restored(kept: unknown): UiState {
  if (typeof kept !== "object" || kept === null) return FRESH;
  const k = kept as Partial<Record<keyof UiState, unknown>>;
  const viewport = (typeof k.viewport === "object" && k.viewport !== null ? k.viewport : {}) as Partial<
    Record<keyof Viewport, unknown>
  >;
  const zoom =
    typeof viewport.zoom === "number" && viewport.zoom > 0 && Number.isFinite(viewport.zoom) ? viewport.zoom : "fit";
  const pins = Object.entries(typeof k.pins === "object" && k.pins !== null ? k.pins : {});
  return {
    ...(typeof k.frame === "string" ? { frame: k.frame } : {}),
    view: isOneOf(k.view, ["print", "negative", "density"], FRESH.view),
    compare: isOneOf(k.compare, ["off", "wipe", "beside"], FRESH.compare),
    // A reference state does not outlive a reload.
    against: isOneOf(k.against, ["negative", "density", "inherited", "unproofed"], FRESH.against),
    wipe: isShare(k.wipe) ? k.wipe : FRESH.wipe,
    viewport: { zoom, centre: isPoint(viewport.centre) ? viewport.centre : FRESH.viewport.centre },
    scope: isOneOf(k.scope, ["frame", "roll"], FRESH.scope),
    warn: k.warn === true,
    proof: k.proof === true,
    ...(typeof k.proofed === "string" ? { proofed: k.proofed } : {}),
    tool: "look",
    pins: Object.fromEntries(
      pins.filter((entry): entry is [string, Point[]] => Array.isArray(entry[1]) && entry[1].every(isPoint)),
    ),
    closed: Array.isArray(k.closed) ? k.closed.filter((c) => typeof c === "string") : FRESH.closed,
    sizes: sizesOf(k.sizes),
    foldedStrip: k.foldedStrip === true,
  };
}

function sizesOf(kept: unknown): UiState["sizes"] {
  const sizes = (typeof kept === "object" && kept !== null ? kept : {}) as Readonly<Record<string, unknown>>;
  const of = (key: "side" | "below"): UiState["sizes"] => {
    const size = sizes[key];
    return typeof size === "number" && size > 0 && Number.isFinite(size) ? { [key]: size } : {};
  };
  return { ...of("side"), ...of("below") };
}
