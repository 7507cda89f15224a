/** The tool for areas of local exposure: which area is chosen, what is drawn next, and the edits that gestures make. */
import type { StatedArea } from "../../../extension/engine/local/stated.ts";
import type { ShownPoint } from "../../../extension/engine/types.ts";
import type { FrameEntry } from "../../../extension/messages.ts";
import { apply, type Point } from "../../state/affine.ts";
import { croppedFrame, type FrameTransform } from "../../state/frame-transform.ts";
import type { AreaDrawing } from "../picture/tool.ts";
import { newArea, setAreas, type ShapeKind, withAreas } from "../../state/local-areas.ts";
import { t } from "../../translate.ts";
import { keyOf, type Session } from "../session.ts";

const KEY = keyOf(["positive", "local"]);

/** Milliseconds without a press after which a run of presses is written. */
const REST = 450;

/** Areas that a run of key presses has moved, on the frame that it began on. */
interface Run {
  readonly frame: FrameEntry;
  readonly label: string;
  readonly areas: readonly StatedArea[];
  readonly timer: ReturnType<typeof setTimeout>;
}

export class LocalTool {
  readonly #session: Session;
  readonly #listeners: (() => void)[] = [];
  #chosen = 0;
  #pending: ShapeKind | undefined;
  #showsMask = true;
  #frame: string | undefined;
  #run: Run | undefined;
  /** The last edit, until it is in the text: an undo must not overtake it. */
  #written: Promise<void> = Promise.resolve();

  constructor(session: Session) {
    this.#session = session;
    session.store.on(({ ui }) => {
      if (ui.frame !== this.#frame) this.#chosen = 0;
      if (ui.frame !== this.#frame || ui.tool !== "local") this.#pending = undefined;
      this.#frame = ui.frame;
    });
  }

  /** The frame's areas: those of the gesture under way, or of the recipe. */
  get areas(): readonly StatedArea[] {
    if (this.#run && this.#run.frame.id === this.#session.frame()?.id) return this.#run.areas;
    const drafted = this.#session.store.get().draft?.values?.[KEY];
    return (drafted as readonly StatedArea[] | undefined) ?? this.#session.frame()?.areas ?? [];
  }

  /** Index of the chosen area; −1 where there is none. */
  get chosen(): number {
    return Math.min(this.#chosen, this.areas.length - 1);
  }

  get pending(): ShapeKind | undefined {
    return this.#pending;
  }

  get showsMask(): boolean {
    return this.#showsMask;
  }

  /** Calls a function when something of the tool's own state changes. */
  on(listener: () => void): void {
    this.#listeners.push(listener);
  }

  choose(index: number): void {
    void this.flush();
    this.#chosen = index;
    this.#tell();
  }

  /** Lets the next drag draw a shape; the same shape again leaves off. */
  prepare(kind: ShapeKind): void {
    this.#pending = this.#pending === kind ? undefined : kind;
    if (this.#session.store.get().ui.tool !== "local") this.#session.ui({ tool: "local" });
    if (this.#pending)
      this.#session.announce(
        kind === "line"
          ? t("Drag over the picture, or mark two points there with arrow keys and Enter.")
          : t("Drag over the picture, or mark two corners there with arrow keys and Enter."),
      );
    this.#tell();
  }

  /** Why the arrow keys move no area; undefined where there is one. */
  missing(): string | undefined {
    return this.areas.length === 0 ? t("There is no area to move yet. Draw one first.") : undefined;
  }

  showMask(shows: boolean): void {
    this.#showsMask = shows;
    this.#tell();
  }

  /** Where the frame lies as it is shown; undefined until its scan is there. */
  transform(): FrameTransform | undefined {
    const { source } = this.#session.store.get();
    const frame = this.#session.frame();
    return source && frame && croppedFrame(source.scanWidth, source.scanHeight, frame);
  }

  /** Width over height of the picture as shown. */
  get aspect(): number {
    const transform = this.transform();
    return transform ? transform.width / transform.height : 1.5;
  }

  /** What is drawn from corner to corner, in fractions of the scan; undefined where nothing is to be drawn. */
  drawing(): AreaDrawing | undefined {
    const kind = this.#pending;
    const transform = this.transform();
    const { source } = this.#session.store.get();
    if (!kind || !transform || !source) return undefined;
    const shown = ([x, y]: Point): ShownPoint => {
      const [u, v] = apply(transform.toFinished, [x * source.scanWidth, y * source.scanHeight]);
      return [u / transform.width, v / transform.height];
    };
    return {
      shape: kind === "line" ? "line" : "rectangle",
      done: (from, to) => {
        this.#pending = undefined;
        const area = newArea(kind, shown(from), shown(to), this.areas);
        this.#chosen = this.areas.length;
        this.commit(t("Area {0} added", this.areas.length + 1), [...this.areas, area]);
      },
    };
  }

  /** Shows areas without writing them. */
  preview(areas: readonly StatedArea[]): void {
    void this.flush();
    this.#show(areas);
  }

  /** Shows the recipe's areas again: a gesture was broken off. */
  drop(): void {
    this.#session.store.set({ draft: undefined });
  }

  /** One press of a run of key presses, which is written as one edit after a rest. */
  nudge(label: string, areas: readonly StatedArea[]): void {
    const frame = this.#session.frame();
    if (!frame) return;
    clearTimeout(this.#run?.timer);
    this.#run = { frame, label, areas, timer: setTimeout(() => void this.flush(), REST) };
    this.#show(areas);
  }

  /** Writes the run of key presses that is under way, for another gesture or frame. Resolves when all is in the text. */
  async flush(): Promise<void> {
    const run = this.#run;
    clearTimeout(run?.timer);
    this.#run = undefined;
    if (run) this.#write(run.frame, run.label, run.areas);
    await this.#written;
  }

  #show(areas: readonly StatedArea[]): void {
    const look = this.#session.frame()?.look;
    if (look) this.#session.preview({ look: withAreas(look, areas), values: { [KEY]: areas } });
  }

  /** Writes areas: one edit, one step of undo. */
  commit(label: string, areas: readonly StatedArea[]): void {
    void this.flush();
    const frame = this.#session.frame();
    if (frame) this.#write(frame, label, areas);
  }

  #write(frame: FrameEntry, label: string, areas: readonly StatedArea[]): void {
    const draft = { look: withAreas(frame.look, areas), values: { [KEY]: areas } };
    const isShown = frame.id === this.#session.frame()?.id;
    this.#written = this.#session.commit(label, setAreas(frame, areas), isShown ? draft : undefined);
    this.#tell();
  }

  /** The areas with the chosen one changed. */
  changed(change: (area: StatedArea) => StatedArea): readonly StatedArea[] {
    return this.areas.map((area, i) => (i === this.chosen ? change(area) : area));
  }

  remove(index: number): void {
    this.commit(
      t("Area {0} removed", index + 1),
      this.areas.filter((_, i) => i !== index),
    );
  }

  #tell(): void {
    for (const listener of this.#listeners) listener();
  }
}

/** "1, sky" */
export const areaName = ({ name }: StatedArea, index: number): string =>
  name === undefined ? String(index + 1) : `${index + 1}, ${name}`;
