/** The curve's points: as they are in the recipe or in the gesture under way, and how they are shown and written. */
import type { FrameLook } from "../../../extension/engine/types.ts";
import type { CurvePoints } from "../../state/curve-points.ts";
import { setPoints, setValue } from "../../state/edits.ts";
import { t } from "../../translate.ts";
import { keyOf, type Session } from "../session.ts";
import { provenanceOf } from "./origin.ts";

export const CURVE_PATH = ["positive", "curve"] as const;

export interface CurveValues {
  /** Whether there is a frame whose curve can be changed. */
  isOpen(): boolean;
  points(): CurvePoints;
  /** Shows points as a gesture under way. */
  show(next: CurvePoints): void;
  /** Writes points into the recipe, as one step of undo. */
  write(next: CurvePoints): void;
  /** Drops the gesture under way. */
  cancel(): void;
}

export function curveValues(session: Session): CurveValues {
  const provenance = (): ReturnType<typeof provenanceOf> =>
    provenanceOf(session, CURVE_PATH, session.store.get().ui.scope);

  function show(next: CurvePoints): void {
    const look = session.look();
    if (!look) return;
    const follows = !provenance()?.overridden;
    const changed: FrameLook = follows ? { ...look, tone: { ...look.tone, points: next } } : look;
    session.preview({ look: changed, values: { [keyOf(CURVE_PATH)]: next } });
  }

  return {
    isOpen: () => session.frame() !== undefined,
    points: () =>
      (session.store.get().draft?.values?.[keyOf(CURVE_PATH)] ??
        provenance()?.value ??
        session.frame()?.look.tone.points ??
        []) as CurvePoints,
    show,
    write(next) {
      const frame = session.frame();
      const { scope } = session.store.get().ui;
      if (!frame) return;
      show(next);
      const inherited = provenance()?.inherited;
      // Where a curve would be inherited, only an empty list says that there is none.
      const edits =
        next.length === 0 && Array.isArray(inherited) && inherited.length > 0
          ? setValue(scope, frame.id, CURVE_PATH, [])
          : setPoints(scope, frame.id, next);
      const label = next.length ? t("Curve with {0} points", next.length) : t("Curve straight");
      void session.commit(label, edits, session.store.get().draft);
    },
    cancel: () => session.store.set({ draft: undefined }),
  };
}
