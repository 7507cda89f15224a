/** What is done with spots that the survey proposes. Each is one edit, and none is lost while the text takes others. */
import type { Spot } from "../../../extension/engine/image/spot.ts";
import type { FrameEntry, ValueEdit } from "../../../extension/messages.ts";
import { reasonOf } from "../../reason.ts";
import { setSpots } from "../../state/edits.ts";
import { t } from "../../translate.ts";
import { refuse } from "../picture/gestures.ts";
import type { Session } from "../session.ts";

export type SpotKind = "film" | "light";

export interface Proposal {
  readonly kind: SpotKind;
  readonly spot: Spot;
}

export const proposalsOf = ({ film, light }: Record<SpotKind, readonly Spot[]>): Proposal[] => [
  ...film.map((spot): Proposal => ({ kind: "film", spot })),
  ...light.map((spot): Proposal => ({ kind: "light", spot })),
];

/** Writes spots into the recipe: one edit, one step of undo, whether it is one spot or all. */
export function accept(session: Session, frame: string, taken: readonly Proposal[]): Promise<void> {
  const label = taken.length === 1 ? t("Spot added") : t("{0} spots added", taken.length);
  return session.queue.add(frame, (entry: FrameEntry) => {
    const of = (kind: SpotKind, known: readonly Spot[]): ValueEdit[] => {
      const fresh = taken.filter((one) => one.kind === kind).map(({ spot }) => spot);
      return fresh.length === 0 ? [] : setSpots(kind, frame, [...known, ...fresh]);
    };
    return { label, edits: [...of("film", entry.spots), ...of("light", entry.lightSpots)] };
  });
}

/** Dismisses a spot or restores it. The host keeps it, and reports that the proposals have changed. */
export async function dismiss(
  session: Session,
  frame: string,
  { kind, spot }: Proposal,
  isDismissed: boolean,
): Promise<void> {
  try {
    await session.client.request("dismiss", { frame, kind, spot, dismissed: isDismissed });
    session.announce(isDismissed ? t("Dismissed") : t("Restored"));
  } catch (error) {
    refuse(session, reasonOf(error));
  }
}
