/** What the pointing tools of the picture share: the choices that they read, and a drag. */
import type { Point } from "../../state/affine.ts";

/** What the tools need to know that is chosen elsewhere in the panel. */
export interface ToolChoices {
  baseScope(): "frame" | "roll";
  spotKind(): "film" | "light";
  spotShape(): "speck" | "line";
  /** Width of a new line, as a fraction of the scan's width. */
  lineWidth(): number;
  ratio(): number | undefined;
  /** Draws an area of local exposure from corner to corner, in fractions of the scan; undefined where none is to be drawn. */
  localDrawing(): AreaDrawing | undefined;
  /** Why the tool for areas has none to move; undefined where it has. */
  localMissing(): string | undefined;
}

/** What a drag, or two presses of Enter, draw: the shape to show meanwhile, and what is done with both points. */
export interface AreaDrawing {
  readonly shape: "line" | "rectangle";
  done(from: Point, to: Point): void;
}

/** A drag under way. Points are in fractions of the scan's sides. */
export interface Drag {
  move(to: Point, event: PointerEvent): void;
  end(to: Point): void;
}
