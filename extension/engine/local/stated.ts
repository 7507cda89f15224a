/** Areas of local exposure as recipes state them, and as plans take them: every default filled in. */
import type { LocalArea, LocalShape, ShownPoint } from "../types.ts";

/** Width of a soft edge that is not stated, in the picture's longest sides. */
export const DEFAULT_FEATHER = 0.1;

/** An area of a recipe; docs/recipe-reference.md says what each key is. */
export interface StatedArea {
  readonly id?: string;
  readonly name?: string;
  readonly line?: readonly [ShownPoint, ShownPoint];
  readonly oval?: readonly [number, number, number, number];
  readonly polygon?: readonly ShownPoint[];
  readonly turn?: number;
  readonly feather?: number;
  readonly exposure?: number;
  readonly filtration?: { readonly cyan?: number; readonly magenta?: number; readonly yellow?: number };
  readonly contrast?: number;
}

/** @returns undefined where the area has no shape, or more than one */
export function localAreaOf(stated: StatedArea): LocalArea | undefined {
  const shape = localShapeOf(stated);
  if (!shape) return undefined;
  const { exposure = 0, filtration: { cyan = 0, magenta = 0, yellow = 0 } = {}, contrast = 1 } = stated;
  return { shape, exposure, filtration: { cyan, magenta, yellow }, contrast };
}

/** @returns undefined where the area has no shape, or more than one */
export function localShapeOf({
  line,
  oval,
  polygon,
  turn = 0,
  feather = DEFAULT_FEATHER,
}: StatedArea): LocalShape | undefined {
  if ([line, oval, polygon].filter((shape) => shape !== undefined).length !== 1) return undefined;
  if (line) return { kind: "line", from: line[0], to: line[1] };
  if (oval) return { kind: "oval", centre: [oval[0], oval[1]], radii: [oval[2], oval[3]], turn, feather };
  return polygon && { kind: "polygon", points: polygon, feather };
}
