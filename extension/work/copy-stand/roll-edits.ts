/** The small change of the recipe that follows from one scan. Pure. */
import type { ValueEdit } from "../../recipe/edit/edit.ts";
import { areaText } from "../new-roll/recipe/roll-text.ts";
import type { Area, Rgb } from "../../engine/types.ts";
import { type Judged, currentRoles, knownRollOf, type Session, usedPictures } from "./session.ts";
import { startValues } from "./start-values.ts";
import type { RollView } from "./roll-view.ts";

/** What the session has written into the recipe so far, as text by path: what differs by now is a person's, and stays. */
export type Written = Readonly<Record<string, string>>;

export interface RollEdits {
  readonly edits: readonly ValueEdit[];
  readonly written: Written;
  /** What the change is called where it can be undone. */
  readonly label: string;
}

/** Looks up what the recipe states at a path itself; undefined where it states nothing. */
export type Stated = (path: ValueEdit["path"]) => unknown;

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
  const shared = sharedEdits(session, after, stated, written);
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
  const exposure = scan.picture?.exposure ?? 0;
  if (role.role === "frame") {
    // A frame that is there already: the file was overwritten, or a raw file came for its JPEG.
    if (known)
      return known.scans.length === 1 && known.scans[0] !== scan.name ? [{ path: at("scan"), value: scan.name }] : [];
    return [
      { path: at("scan"), value: scan.name },
      ...(area ? [{ path: at("area"), value: area }] : []),
      ...(view.turn === 0 ? [] : [{ path: at("turn"), value: view.turn }]),
      ...(view.mirror ? [{ path: at("mirror"), value: true }] : []),
      ...(exposure === 0 ? [] : [{ path: at("positive"), value: { exposure } }]),
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

/** The new scan's area; one that a person has set moves along with the picture. */
function movedArea(stated: unknown, before: Area | undefined, now: Area | undefined): Area | undefined {
  if (!now) return undefined;
  const own = stated as Area | undefined;
  if (!own || !before || same(own, before)) return now;
  const clamp = (v: number): number => Number(Math.min(1, Math.max(0, v)).toFixed(4));
  return { ...own, left: clamp(own.left + now.left - before.left), top: clamp(own.top + now.top - before.top) };
}

const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

/** Differences too small to be worth a line in the history: density, and CC. */
const [SMALL_DENSITY, SMALL_CC] = [0.004, 1];

function sharedEdits(
  session: Session,
  view: RollView,
  stated: Stated,
  written: Written,
): { edits: ValueEdit[]; written: Written } {
  const edits: ValueEdit[] = [];
  const nowWritten: Record<string, string> = { ...written };
  const state = (path: string[], value: unknown, close: (now: unknown) => boolean = () => false): void => {
    const key = path.join(".");
    const now = stated(path);
    // What is not as this session left it belongs to a person: also what was removed.
    if (value === undefined || (nowWritten[key] ?? "undefined") !== (JSON.stringify(now) ?? "undefined")) return;
    if (now !== undefined && (same(now, value) || close(now))) return;
    edits.push({ path, value });
    nowWritten[key] = JSON.stringify(value);
  };
  const roles = currentRoles(session, view);
  if (view.blank === undefined || view.blank === roles.blank?.name) state(["light", "blank"], roles.blank?.name);
  const ownFlare = nowWritten["light.flare"] !== undefined;
  const ownBase = nowWritten["negative.base"] !== undefined;
  const { blank: _, base: statedBase, flare: statedFlare, ...rest } = view;
  const free: RollView = {
    ...rest,
    ...(view.blank === undefined ? {} : { blank: view.blank }),
    ...(statedBase && !ownBase ? { base: statedBase } : {}),
    ...(statedFlare && !ownFlare ? { flare: statedFlare } : {}),
  };
  const roll = knownRollOf(session, free);
  const slide = view.look.film === "slide";
  const rounded = (v: Rgb, digits: number): Rgb => v.map((x) => Number(x.toFixed(digits))) as unknown as Rgb;
  if (roll.flare && !slide)
    state(["light", "flare"], rounded(roll.flare, 4), (now) => farthest(now, roll.flare!) < SMALL_DENSITY / 2);
  const source = slide ? undefined : baseSource(session, view);
  if (source && roll.base)
    state(
      ["negative", "base"],
      { density: rounded(roll.base, 4), read: { scan: source.name, area: source.area } },
      (now) => farthest((now as { density?: unknown }).density, roll.base!) < SMALL_DENSITY,
    );
  const pictures = usedPictures(session, view);
  const info = pictures[0]?.picture?.reading.info;
  if (!info) return { edits, written: nowWritten };
  const { look, unmix } = startValues({
    look: view.look,
    base: roll.base,
    statesUnmix: view.statesUnmix && nowWritten["negative.unmix"] === undefined,
    info,
    samples: roll.samples,
  });
  if (unmix)
    state(
      ["negative", "unmix"],
      look.unmix.map((row) => rounded(row, 4)),
    );
  if (view.look.film === "colour-negative")
    state(["positive", "filtration"], nonZero(look.filtration), (now) => farthestCc(now, look.filtration) < SMALL_CC);
  return { edits, written: nowWritten };
}

function baseSource(session: Session, view: RollView) {
  const leader = session.findLast(({ kind, base }) => kind === "leader" && base);
  const from = leader ?? usedPictures(session, view).find(({ picture }) => picture?.base);
  const base = from?.base ?? from?.picture?.base;
  return from && base && { name: from.name, area: base.area };
}

const farthest = (now: unknown, value: Rgb): number =>
  Array.isArray(now) ? Math.max(...value.map((v, c) => Math.abs(v - Number(now[c])))) : Infinity;

const CC = ["cyan", "magenta", "yellow"] as const;
function farthestCc(now: unknown, value: Readonly<Record<(typeof CC)[number], number>>): number {
  const own = now as Partial<Record<(typeof CC)[number], number>>;
  return Math.max(...CC.map((key) => Math.abs(value[key] - (own[key] ?? 0))));
}

const nonZero = (value: Readonly<Record<(typeof CC)[number], number>>) =>
  CC.some((key) => value[key] !== 0) ? { cyan: value.cyan, magenta: value.magenta, yellow: value.yellow } : undefined;
