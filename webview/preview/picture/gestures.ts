/** What the tools do with places of the scan: from a gesture's end to the edit of the recipe. */
import type { LocalAdjustment } from "../../../extension/engine/local/areas.ts";
import { adjustmentsIn } from "../../../extension/engine/local/grid.ts";
import type { Spot } from "../../../extension/engine/image/spot.ts";
import type { Area, FrameLook, Rgb } from "../../../extension/engine/types.ts";
import type { FrameEntry } from "../../../extension/messages.ts";
import { placeIn, type Source } from "../../render/source.ts";
import type { Session } from "../session.ts";
import type { Point } from "../../state/affine.ts";
import { CONTROLS, rounded } from "../../state/controls.ts";
import { BASE_PATH, setArea, setBase, setFiltration, setSpots } from "../../state/edits.ts";
import { greyExposure, neutralFiltration } from "../../state/pick.ts";
import { simplified } from "../../state/line-course.ts";
import { lightAt } from "../../state/readings.ts";
import { t } from "../../translate.ts";
import { reasonOf } from "../../reason.ts";
import { type BaseDoubt, baseDoubts } from "../../state/base-doubts.ts";
import { provenanceOf } from "../sections/origin.ts";
import { bringFrameTo } from "../sections/print-values.ts";
import { clamp } from "../../../extension/engine/math/clamp.ts";

/** Reading the base may need a full decode of the scan. */
const BASE_LIMIT = 180_000;

/** What areas of local exposure add at a place of the scan. */
const localAt = (source: Source, frame: FrameEntry, { local }: FrameLook, at: Point): LocalAdjustment | undefined =>
  adjustmentsIn(local, placeIn(source, frame))?.(at);

/** A click with the neutral picker: filtration so that the place becomes grey. */
export function pickNeutral(session: Session, at: Point): void {
  const { source, ui } = session.store.get();
  const [frame, look] = [session.frame(), session.look()];
  const light = source && lightAt(source, at, 2);
  if (!frame || !look || !light) return;
  const found = neutralFiltration(look, light.transmittance, localAt(source, frame, look, at));
  if (!found)
    return refuse(
      session,
      t("No filtration makes this place neutral: it is too dark, too coloured, or the film has no colours."),
    );
  const filtration = { cyan: found.cyan, magenta: rounded(found.magenta, 1), yellow: rounded(found.yellow, 1) };
  void session.commit(
    t("Filtration from a neutral: {0} magenta, {1} yellow", filtration.magenta, filtration.yellow),
    setFiltration(ui.scope, frame.id, look.filtration, filtration),
    { look: { ...look, filtration } },
  );
}

/** A click with the grey picker: exposure so that the place becomes mid-grey. */
export function pickGrey(session: Session, at: Point): void {
  const { source } = session.store.get();
  const [frame, look] = [session.frame(), session.look()];
  const light = source && lightAt(source, at, 2);
  if (!frame || !look || !light) return;
  const found = greyExposure(look, light.transmittance, localAt(source, frame, look, at));
  const control = CONTROLS[0];
  if (found === undefined || Math.abs(found) > control.max)
    return refuse(session, t("This place is too dark or too bright to be brought to mid-grey."));
  bringFrameTo(session, control, rounded(found, control.decimals));
}

/** A rectangle with the base tool, from corner to corner: the density of film base there. */
export async function readBase(session: Session, from: Point, to: Point, scope: "frame" | "roll"): Promise<void> {
  const frame = session.frame();
  if (!frame) return;
  const hold = (v: number): number => clamp(v, 0, 1);
  const [left, right] = [Math.min(from[0], to[0]), Math.max(from[0], to[0])].map(hold);
  const [top, bottom] = [Math.min(from[1], to[1]), Math.max(from[1], to[1])].map(hold);
  const area = [left, top, right - left, bottom - top] as const;
  session.announce(t("Reading the base …"));
  try {
    const reading = await session.client.request("base", { frame: frame.id, area }, { limit: BASE_LIMIT });
    const words = reading.density.map((d) => d.toFixed(3)).join(" · ");
    const write = (): Promise<void> => session.commit(t("Base read: {0}", words), setBase(scope, frame.id, reading));
    const doubts = baseDoubts(reading, statedBase(session, scope), session.store.get().source);
    if (doubts.length === 0) return await write();
    session.ask({
      text: t("This reading ({0} D) is not written yet: {1}", words, doubts.map(doubtText).join(" ")),
      accept: t("Write it"),
      run: () => void write(),
    });
  } catch (error) {
    refuse(session, reasonOf(error));
  }
}

/** The base that a reading is compared with: the one that it would replace, or the stock's. */
function statedBase(session: Session, scope: "frame" | "roll"): Rgb | undefined {
  const value = provenanceOf(session, BASE_PATH, scope)?.value;
  const isBase = Array.isArray(value) && value.length === 3 && value.every((v) => typeof v === "number");
  return isBase ? (value as unknown as Rgb) : undefined;
}

function doubtText(doubt: BaseDoubt): string {
  if (doubt.kind === "uneven")
    return t("Its area is uneven (standard deviation {0} D): there may be picture in it.", doubt.deviation.toFixed(3));
  if (doubt.kind === "far")
    return t("It is {0} D from the base that is stated.", doubt.difference.toFixed(2).replace("-", "−"));
  return t(
    "{0} % of this scan is film that is clearer, by {1} D.",
    (100 * doubt.part).toFixed(1),
    doubt.difference.toFixed(2),
  );
}

export function commitArea(session: Session, area: Area, frames: readonly string[]): void {
  const label = frames.length > 1 ? t("Crop of {0} frames", frames.length) : t("Crop of frame {0}", frames[0]);
  void session.commit(label, setArea(frames, area), { area });
}

/** Radius of a new spot, as a fraction of the scan's width, until another is chosen. */
export const SPOT_RADIUS = 0.003;

/** Adds a spot of the film, or of sensor and lens. */
export function addSpot(session: Session, kind: "film" | "light", at: Point, radius: number): void {
  const [frame, { source }] = [session.frame(), session.store.get()];
  if (!frame || !source || refusesLight(session, kind)) return;
  // y is counted in widths, so that a spot is round.
  const spot = [at[0], (at[1] * source.scanHeight) / source.scanWidth, clamp(radius, 0.0005, 0.05)] as const;
  queueSpot(session, kind, frame.id, spot, t("Spot added"));
}

/** Width of a new line, as a fraction of the scan's width, until another is chosen. */
export const LINE_WIDTH = 0.0015;

/** Adds a hair or a scratch. Its course is kept to a quarter of its width. */
export function addLine(session: Session, kind: "film" | "light", course: readonly Point[], width: number): void {
  const [frame, { source }] = [session.frame(), session.store.get()];
  if (!frame || !source || refusesLight(session, kind)) return;
  const tall = source.scanHeight / source.scanWidth;
  const line = simplified(
    course.map(([x, y]): Point => [clamp(x, 0, 1), clamp(y, 0, 1) * tall]),
    width / 4,
  );
  // A course that stays in place is no line.
  if (Math.max(...line.map(([x, y]) => Math.hypot(x - line[0][0], y - line[0][1]))) < width) return;
  queueSpot(session, kind, frame.id, { line, width }, t("Line added"));
}

const spotsOf = (kind: "film" | "light", frame: FrameEntry): readonly Spot[] =>
  kind === "film" ? frame.spots : frame.lightSpots;

/** Specks are clicked faster than the text takes them: each is added to those that are in it when its turn comes. */
function queueSpot(session: Session, kind: "film" | "light", frame: string, spot: Spot, label: string): void {
  void session.queue.add(frame, (entry) => ({ label, edits: setSpots(kind, frame, [...spotsOf(kind, entry), spot]) }), {
    frame,
    spot,
  });
}

/** Sensor dust lies at one place of every scan, so a joined picture cannot show where. */
function refusesLight(session: Session, kind: "film" | "light"): boolean {
  if (kind !== "light" || (session.frame()?.scans.length ?? 0) <= 1) return false;
  refuse(
    session,
    t("Sensor dust lies at the same place of every scan, not of the joined picture. Mark it in a frame of one scan."),
  );
  return true;
}

export function removeSpot(session: Session, kind: "film" | "light", index: number): void {
  const frame = session.frame();
  const spot = frame && spotsOf(kind, frame)[index];
  if (!spot) return;
  const wanted = JSON.stringify(spot);
  void session.queue.add(frame.id, (entry) => {
    const spots = spotsOf(kind, entry);
    // Those before it in the queue may have moved it in the list.
    const at = spots.findIndex((one) => JSON.stringify(one) === wanted);
    return at < 0
      ? undefined
      : {
          label: t("Spot removed"),
          edits: setSpots(
            kind,
            entry.id,
            spots.filter((_, i) => i !== at),
          ),
        };
  });
}

export function addPin(session: Session, at: Point): void {
  const [frame, { ui }] = [session.frame(), session.store.get()];
  if (!frame) return;
  session.ui({ pins: { ...ui.pins, [frame.id]: [...(ui.pins[frame.id] ?? []), at] } });
  session.announce(t("Reading pinned"));
}

export function removePin(session: Session, index: number): void {
  const [frame, { ui }] = [session.frame(), session.store.get()];
  if (!frame) return;
  session.ui({ pins: { ...ui.pins, [frame.id]: (ui.pins[frame.id] ?? []).filter((_, i) => i !== index) } });
  session.announce(t("Pinned reading removed"));
}

export function refuse(session: Session, editFailure: string): void {
  session.store.set({ editFailure, announcement: editFailure, draft: undefined });
}
