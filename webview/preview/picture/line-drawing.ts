/** A hair or a scratch while it is drawn: dragged along its course, or set point by point with clicks or Enter. */
import type { Session } from "../session.ts";
import type { Point } from "../../state/affine.ts";
import { t } from "../../translate.ts";
import { addLine } from "./gestures.ts";
import type { Overlay } from "./overlay.ts";
import type { Drag, ToolChoices } from "./tool.ts";

/** Points nearer than this, in parts of the scan's width, are one point. */
const SAME = 0.002;

/** Points are in fractions of the scan's sides. */
export class LineDrawing {
  readonly #session: Session;
  readonly #overlay: Overlay;
  readonly #choices: ToolChoices;
  #points: Point[] = [];

  constructor(session: Session, overlay: Overlay, choices: ToolChoices) {
    this.#session = session;
    this.#overlay = overlay;
    this.#choices = choices;
    let frame: string | undefined;
    // What was begun on one frame, or with one tool, does not go on with another.
    session.store.on(({ ui }) => {
      if (this.isUnderWay && (ui.tool !== "spots" || (frame !== undefined && ui.frame !== frame))) this.cancel();
      frame = ui.frame;
    });
  }

  get isUnderWay(): boolean {
    return this.#points.length > 0;
  }

  /** Sets the next point; the last one again ends the line. */
  add(point: Point): void {
    const last = this.#points.at(-1);
    if (last && this.#distance(last, point) < SAME) return this.#points.length > 1 ? this.end() : undefined;
    this.#points.push(point);
    this.point(point);
    if (this.#points.length === 1)
      this.#session.announce(
        t("First point of the line. Set the next one along it; set the last one twice to end. Backspace reverts one."),
      );
  }

  /** Shows the line as it would go on to a place. */
  point(to: Point): void {
    if (this.isUnderWay) this.#show([...this.#points, to]);
  }

  /** Reverts the last point. */
  back(): void {
    this.#points.pop();
    if (this.isUnderWay) this.#show(this.#points);
    else this.#overlay.draw(undefined);
  }

  end(): void {
    const points = this.#points;
    this.cancel();
    addLine(this.#session, this.#choices.spotKind(), points, this.#choices.lineWidth());
  }

  cancel(): void {
    this.#points = [];
    this.#overlay.draw(undefined);
  }

  /** The whole line in one stroke of the pointer. */
  drag(from: Point): Drag {
    const course = [from];
    return {
      move: (to) => {
        // A press that does not move is a click, and sets a point of what is under way.
        this.#points = [];
        course.push(to);
        this.#show(course);
      },
      end: (to) => {
        this.cancel();
        addLine(this.#session, this.#choices.spotKind(), [...course, to], this.#choices.lineWidth());
      },
    };
  }

  #show(points: readonly Point[]): void {
    this.#overlay.draw({ kind: "course", points, width: this.#choices.lineWidth() });
  }

  #distance([x, y]: Point, [u, v]: Point): number {
    const { source } = this.#session.store.get();
    return Math.hypot(u - x, ((v - y) * (source?.scanHeight ?? 1)) / (source?.scanWidth ?? 1));
  }
}
