/** Spots that somebody looked at and does not want healed: a survey proposes them no more. No recipe says anything of it. */
import type { Spot } from "../../engine/image/spot.ts";
import type { Speck, SurveyedRoll } from "../../engine/survey/types.ts";
import { isOn, type Proposals } from "./spots.ts";

/** Spots by the scan's path, as they lie in it; and those on sensor or lens, which lie so in every scan of the roll. */
export interface Dismissed {
  readonly film: Readonly<Record<string, readonly Spot[]>>;
  readonly light: readonly Spot[];
}

export const NONE_DISMISSED: Dismissed = { film: {}, light: [] };

/** Where a spot lies: on the film in the scan at a path, or on sensor or lens. */
export type SpotPlace = { readonly scan: string } | "light";

export function withDismissed(dismissed: Dismissed, place: SpotPlace, spot: Spot): Dismissed {
  const known = spotsAt(dismissed, place);
  return isOn(spot, known) ? dismissed : changed(dismissed, place, [...known, spot]);
}

/** Whatever kept the spot from being proposed is taken out. */
export function withoutDismissed(dismissed: Dismissed, place: SpotPlace, spot: Spot): Dismissed {
  return changed(
    dismissed,
    place,
    spotsAt(dismissed, place).filter((known) => !isOn(spot, [known])),
  );
}

const spotsAt = ({ film, light }: Dismissed, place: SpotPlace): readonly Spot[] =>
  place === "light" ? light : Object.hasOwn(film, place.scan) ? film[place.scan]! : [];

function changed({ film, light }: Dismissed, place: SpotPlace, spots: readonly Spot[]): Dismissed {
  if (place === "light") return { film, light: spots };
  const others = Object.entries(film).filter(([path]) => path !== place.scan);
  return { film: Object.fromEntries(spots.length > 0 ? [...others, [place.scan, spots]] : others), light };
}

/** What of a survey says where its proposals lie. */
interface Proposing extends Proposals {
  readonly roll: Pick<SurveyedRoll, "scans">;
  readonly paths: Readonly<Record<string, string>>;
}

/**
 * A survey with the proposals alone that are open, and with those that were dismissed. Another survey finds a speck a
 * fraction of a pixel away, or its outline a little different: dismissed is what has its middle on a spot that was.
 */
export function partProposals<S extends Proposing>(
  survey: S,
  dismissed: Dismissed,
): { readonly open: S; readonly dismissed: S } {
  const pathOf = new Map(survey.roll.scans.map(({ frame, name }) => [frame ?? name, survey.paths[name]]));
  const part = (wanted: boolean): S => {
    const of = (specks: readonly Speck[], place: SpotPlace): Speck[] => {
      const known = spotsAt(dismissed, place);
      return specks.map((speck) => ({ ...speck, spots: speck.spots.filter((spot) => isOn(spot, known) === wanted) }));
    };
    const dust = Object.entries(survey.dust).map(([frame, specks]) => [
      frame,
      of(specks, { scan: pathOf.get(frame) ?? "" }),
    ]);
    return { ...survey, dust: Object.fromEntries(dust), sensorDust: of(survey.sensorDust, "light") };
  };
  return { open: part(false), dismissed: part(true) };
}
