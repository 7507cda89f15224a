/** The small change of the recipe that follows from one scan. Pure. */
import type { ValueEdit } from "../../../recipe/edit/edit.ts";
import { areaText } from "../../new-roll/recipe/roll-text.ts";
import type { Area } from "../../../engine/types.ts";
import type { RollView } from "./roll-view.ts";
import type { Judged, Session } from "../session.ts";
import { sharedEdits } from "./shared-edits.ts";
import type { RollStart } from "../measure/start-values.ts";
import { ADDED, type Stated, textOf, type Written } from "./written.ts";

export interface RollEdits {
  readonly edits: readonly ValueEdit[];
  readonly written: Written;
  /** What the change is called where it can be undone. */
  readonly label: string;
}

/**
 * @param session with the judged scan as its last
 * @param areaOfFrame the area that the recipe states for a frame
 */
export function rollEdits(
  session: Session,
  view: RollView,
  judged: Judged,
  stated: Stated,
  written: Written,
): RollEdits {
  const edits = frameEdits(session, judged, view, stated);
  const after = afterEdits(view, judged);
  const shared = sharedEdits(session, after, stated, { ...written, ...writtenBy(judged, edits) });
  return {
    edits: [...shared.edits, ...edits],
    written: shared.written,
    label: labelOf(judged),
  };
}

function labelOf({ scan, role }: Judged): string {
  if (role.role === "frame") return `Add frame ${role.frame} (${scan.name})`;
  if (role.role === "retake")
    return role.kept === "new"
      ? `Replace ${role.earlier} by ${scan.name} in frame ${role.frame}`
      : `Note ${scan.name} beside frame ${role.frame}`;
  return `Add ${scan.name}`;
}

/** The roll's frames as the edits leave them. */
function afterEdits(view: RollView, { scan, role }: Judged): RollView {
  if (role.role === "frame" && view.frames.every(({ id }) => id !== role.frame))
    return { ...view, frames: [...view.frames, { id: role.frame, scans: [scan.name], unused: [] }] };
  if (role.role !== "retake" || role.kept !== "new") return view;
  return {
    ...view,
    frames: view.frames.map((frame) => (frame.id === role.frame ? { ...frame, scans: [scan.name] } : frame)),
  };
}

function frameEdits(session: Session, { scan, role }: Judged, view: RollView, stated: Stated): ValueEdit[] {
  if (role.role !== "frame" && role.role !== "retake") return [];
  const at = (...path: string[]): string[] => ["frames", role.frame, ...path];
  const known = view.frames.find(({ id }) => id === role.frame);
  const area = scan.picture?.found && areaText(scan.picture.found.area);
  const positive = positiveOf(scan.picture?.start.frames.at(-1));
  if (role.role === "frame") {
    // A frame that is there already: the file was overwritten, or a raw file came for its JPEG.
    if (known)
      return known.scans.length === 1 && known.scans[0] !== scan.name ? [{ path: at("scan"), value: scan.name }] : [];
    return [
      { path: at("scan"), value: scan.name },
      ...(area ? [{ path: at("area"), value: area }] : []),
      ...(view.turn === 0 ? [] : [{ path: at("turn"), value: view.turn }]),
      ...(view.mirror ? [{ path: at("mirror"), value: true }] : []),
      ...(positive ? [{ path: at("positive"), value: positive }] : []),
    ];
  }
  const unusedScan = role.kept === "new" ? role.earlier : scan.name;
  const unused = [...(known?.unused ?? []).filter((name) => name !== unusedScan), unusedScan];
  if (role.kept === "earlier") return [{ path: at("unused"), value: unused }];
  const earlier = session.find((one) => one.name === role.earlier)?.picture?.found?.area;
  const moved = movedArea(stated(at("area")), earlier && areaText(earlier), area);
  return [
    { path: at("scan"), value: scan.name },
    { path: at("unused"), value: unused },
    ...(moved ? [{ path: at("area"), value: moved }] : []),
    // Specks lie elsewhere on a scan that was taken again after cleaning.
    ...(stated(at("spots")) === undefined ? [] : [{ path: at("spots"), value: undefined }]),
  ];
}

const positiveOf = (start: RollStart["frames"][number] | undefined) =>
  start && (start.exposure !== 0 || start.contrast !== undefined)
    ? {
        ...(start.exposure === 0 ? {} : { exposure: start.exposure }),
        ...(start.contrast === undefined ? {} : { contrast: start.contrast }),
      }
    : undefined;

/** A new frame's exposure and contrast are the session's: they follow when later pictures say more. */
function writtenBy({ role }: Judged, edits: readonly ValueEdit[]): Written {
  if (role.role !== "frame" || edits.length === 0) return {};
  const positive = edits.find(({ path }) => path.length === 3 && path[2] === "positive")?.value ?? {};
  return Object.fromEntries([
    [`frames.${role.frame}`, ADDED],
    ...Object.entries(positive).map(([key, v]) => [`frames.${role.frame}.positive.${key}`, textOf(v)]),
  ]) as Written;
}

/** The new scan's area; one that a person has set moves along with the picture. */
function movedArea(stated: unknown, before: Area | undefined, now: Area | undefined): Area | undefined {
  if (!now) return undefined;
  const own = stated as Area | undefined;
  if (!own || !before || same(own, before)) return now;
  const clamp = (v: number): number => Number(Math.min(1, Math.max(0, v)).toFixed(4));
  return { ...own, left: clamp(own.left + now.left - before.left), top: clamp(own.top + now.top - before.top) };
}

const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);
