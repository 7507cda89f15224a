/** Changes of a recipe that fix findings of the survey. */
import { lateralFaults } from "../../engine/lens/lateral-colour.ts";
import { measuredFlare } from "../../engine/survey/findings/flare.ts";
import { measuredLateralColour } from "../../engine/survey/findings/lateral-colour.ts";
import { mirroredScans } from "../../engine/survey/findings/mirrored.ts";
import type { ValueEdit } from "../edit/edit.ts";
import type { ResolvedFrame } from "../resolve/resolve.ts";
import { freshDust, spotEdits } from "../survey/spots.ts";
import { changes, fileEdits } from "./edits.ts";
import type { PlacedFinding, ReadRoll, Surveyed } from "./findings.ts";
import type { FileEdits, Say } from "./types.ts";
import { valueText } from "./values.ts";

/** A change of the text that fixes a finding. */
export interface FindingFix {
  readonly title: string;
  readonly edits: FileEdits;
}

interface Draft {
  readonly title: string;
  readonly edits: readonly ValueEdit[];
}

interface Case {
  readonly roll: ReadRoll;
  readonly surveyed: Surveyed;
  readonly frame?: ResolvedFrame;
  readonly t: Say;
}

/** Findings whose remedy is a change of the recipe; everything else is fixed at the copy stand. */
const makers: Readonly<Record<string, (the: Case) => Draft[]>> = {
  dust,
  "sensor-dust": sensorDust,
  mirrored,
  flare,
  "lateral-colour": lateralColour,
};

/** Every change of the text that fixes a finding. */
export function findingFixes(
  roll: ReadRoll,
  surveyed: Surveyed,
  { finding, frame: id }: PlacedFinding,
  t: Say,
): FindingFix[] {
  const frame = roll.resolved.frames.find((one) => one.id === id);
  const drafts = Object.hasOwn(makers, finding.code) ? makers[finding.code]!({ roll, surveyed, frame, t }) : [];
  return drafts.flatMap(({ title, edits }) => {
    const made = changes(roll.document, edits);
    return made ? [{ title, edits: fileEdits(roll.document, made) }] : [];
  });
}

const spots = (count: number, t: Say): string => (count === 1 ? t("1 spot") : t("{0} spots", count));

function dust({ roll, surveyed, frame, t }: Case): Draft[] {
  const own = frame ? freshDust(frame, surveyed.dust) : [];
  const all = spotEdits(roll.resolved, { dust: surveyed.dust, sensorDust: [] });
  const one: Draft[] =
    frame && own.length > 0
      ? [
          {
            title: t("Heal the dust on frame {0}: {1}", frame.id, spots(own.length, t)),
            edits: [{ path: ["frames", frame.id, "spots"], value: [...frame.spots, ...own] }],
          },
        ]
      : [];
  return all.dust > own.length
    ? [...one, { title: t("Heal the dust on every frame: {0}", spots(all.dust, t)), edits: all.edits }]
    : one;
}

function sensorDust({ roll, surveyed, t }: Case): Draft[] {
  const { edits, sensorDust: count } = spotEdits(roll.resolved, { dust: {}, sensorDust: surveyed.sensorDust });
  return [{ title: t("Heal the sensor dust in every frame: {0}", spots(count, t)), edits }];
}

function mirrored({ roll, surveyed, frame, t }: Case): Draft[] {
  const { whole } = mirroredScans(surveyed.roll.scans);
  const frames = whole ? roll.resolved.frames.filter(({ skip }) => !skip) : frame ? [frame] : [];
  // Frames may differ in what the recipe says of them, though not where the whole roll lies one way.
  const other = ({ id }: ResolvedFrame): boolean => !surveyed.mirrored.includes(id);
  const edits = frames.map((one): ValueEdit => ({ path: ["frames", one.id, "mirror"], value: other(one) }));
  const first = frames[0];
  if (!first) return [];
  const value = String(other(frame ?? first));
  const title = whole ? t("Set mirror: {0} on every frame", value) : t("Set mirror: {0} on frame {1}", value, first.id);
  return [{ title, edits }];
}

function flare({ surveyed, t }: Case): Draft[] {
  const found = measuredFlare(surveyed.roll);
  if (!found) return [];
  const value = found.map((part) => Number(part.toFixed(4)));
  const text = valueText(value);
  return [
    { title: t("Set light.flare to what was measured: {0}", text), edits: [{ path: ["light", "flare"], value }] },
  ];
}

function lateralColour({ roll, surveyed, t }: Case): Draft[] {
  const found = measuredLateralColour(surveyed.roll.scans);
  if (!found) return [];
  const value = lateralFaults(found.fit, roll.resolved.shared.light.lens?.lateral);
  const text = valueText(value);
  return [
    {
      title: t("Set light.lens.lateral to what was measured: {0}", text),
      edits: [{ path: ["light", "lens", "lateral"], value }],
    },
  ];
}
