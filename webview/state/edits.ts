/** Gestures as edits of the recipe. Each function gives everything that one gesture changes: one step of undo. */
import { isLine, roundedSpot, type Spot } from "../../extension/engine/image/spot.ts";
import type { Turn } from "../../extension/engine/image/geometry.ts";
import type { Area, Rgb } from "../../extension/engine/types.ts";
import type { PreviewRequests, ValueEdit, RecipePath } from "../../extension/messages.ts";
import type { Scope } from "./cascade.ts";
import { rounded } from "./controls.ts";

/** The full path of a value below a frame or the roll. */
export function pathIn(scope: Scope, frame: string, path: RecipePath): RecipePath {
  return scope === "frame" ? ["frames", frame, ...path] : path;
}

export const setValue = (scope: Scope, frame: string, path: RecipePath, value: unknown): ValueEdit[] => [
  { path: pathIn(scope, frame, path), value },
];

export const resetValue = (scope: Scope, frame: string, path: RecipePath): ValueEdit[] => [
  { path: pathIn(scope, frame, path), value: undefined },
];

/** Place of the base's density below a frame, or below the roll. */
export const BASE_PATH = ["negative", "base", "density"] as const;

type Filters = { readonly cyan: number; readonly magenta: number; readonly yellow: number };

/** Only the filters that change. */
export function setFiltration(scope: Scope, frame: string, before: Filters, after: Filters): ValueEdit[] {
  return (["cyan", "magenta", "yellow"] as const)
    .filter((key) => rounded(after[key], 1) !== rounded(before[key], 1))
    .map((key) => ({ path: pathIn(scope, frame, ["positive", "filtration", key]), value: rounded(after[key], 1) }));
}

export function setBase(
  scope: Scope,
  frame: string,
  { density, scatter, scan, area }: PreviewRequests["base"]["reply"],
): ValueEdit[] {
  const three = (v: Rgb, decimals: number): number[] => v.map((x) => rounded(x, decimals));
  return [
    { path: pathIn(scope, frame, ["negative", "base", "density"]), value: three(density, 3) },
    {
      path: pathIn(scope, frame, ["negative", "base", "read"]),
      value: { scan, area: area.map((v) => rounded(v, 4)), scatter: three(scatter, 3) },
    },
  ];
}

/** An area as it stands in a recipe: four decimals are under a pixel of any scan, tilt only where there is one. */
export function writtenArea(area: Area): Record<string, number> {
  const { left, top, width, height } = area;
  const tilt = rounded(area.tilt, 2);
  const [l, t] = [rounded(left, 4), rounded(top, 4)];
  // Rounded edges must not leave the scan.
  const written = {
    left: l,
    top: t,
    width: Math.min(rounded(width, 4), rounded(1 - l, 4)),
    height: Math.min(rounded(height, 4), rounded(1 - t, 4)),
  };
  return tilt === 0 ? written : { ...written, tilt };
}

export const isWhole = (area: Area): boolean =>
  area.left <= 0 && area.top <= 0 && area.width >= 1 && area.height >= 1 && area.tilt === 0;

/** The crop of these frames; the whole scan needs no words. */
export const setArea = (frames: readonly string[], area: Area): ValueEdit[] =>
  frames.map((frame) => ({ path: ["frames", frame, "area"], value: isWhole(area) ? undefined : writtenArea(area) }));

export const setTurn = (frame: string, turn: Turn): ValueEdit[] => [
  { path: ["frames", frame, "turn"], value: turn === 0 ? undefined : turn },
];

export const setMirror = (frame: string, mirror: boolean): ValueEdit[] => [
  { path: ["frames", frame, "mirror"], value: mirror ? true : undefined },
];

/** Spots of the frame, or under `light` those of every scan. */
export function setSpots(kind: "film" | "light", frame: string, spots: readonly Spot[]): ValueEdit[] {
  const path: RecipePath = kind === "film" ? ["frames", frame, "spots"] : ["light", "spots"];
  const written = spots.map((spot) => roundedSpot(spot, isLine(spot) ? 5 : 4, 5));
  return [{ path, value: written.length ? written : undefined }];
}

/** Points of the tone curve; none takes the key out. */
export const setPoints = (scope: Scope, frame: string, points: readonly (readonly [number, number])[]): ValueEdit[] => [
  {
    path: pathIn(scope, frame, ["positive", "curve"]),
    value: points.length ? points.map(([x, y]) => [rounded(x, 1), rounded(y, 1)]) : undefined,
  },
];

/** Frames after this one, in the order of the text. */
export function following(ids: readonly string[], frame: string): readonly string[] {
  const at = ids.indexOf(frame);
  return at < 0 ? [] : ids.slice(at + 1);
}
