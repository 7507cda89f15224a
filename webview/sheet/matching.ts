/** Matching the selected frames to the one with the focus: shown first, and written as one edit when somebody agrees. */
import { type FrameMatch, matchFrame } from "../../extension/engine/auto/match-frame.ts";
import type { FrameLook } from "../../extension/engine/types.ts";
import type { FrameEntry, Proxy, ValueEdit } from "../../extension/messages.ts";
import { sourceOf } from "../render/source.ts";
import { allowed, type Control, CONTROLS } from "../state/controls.ts";
import { pictureSample } from "../state/sheet/picture-sample.ts";
import { setOnFrames } from "../state/sheet/sheet-edits.ts";
import { t } from "../translate.ts";
import { countText, type SheetSession } from "./sheet-session.ts";

/** Scans decoded for their thumbnails at a time. */
const AT_ONCE = 4;
const LIMIT = 300_000;

/** Works the match out, shows it in the grid and offers to write it. */
export async function offerMatch(session: SheetSession): Promise<void> {
  // A match of values that are being changed would not hold.
  await session.settled();
  const reference = session.focused();
  const others = session.targets().filter(({ id }) => id !== reference?.id);
  if (!reference || others.length === 0) return;
  session.announce(t("Comparing {0} …", countText(others.length)));
  const proxies = await thumbnails(session, [reference, ...others]);
  const from = { ...sideOf(proxies.get(reference.id)!, reference), look: reference.look };
  const looks = new Map<string, FrameLook>();
  const matches: FrameMatch[] = [];
  for (const frame of others) {
    const match = matchFrame(from, sideOf(proxies.get(frame.id)!, frame));
    matches.push(match);
    looks.set(frame.id, matchedLook(frame.look, match));
    // Pictures of the frames that are done are drawn meanwhile.
    await new Promise((done) => setTimeout(done));
  }
  const label = t("Matched to frame {0}: {1}", reference.id, countText(others.length));
  const restsOn = new Map([reference, ...others].map((frame) => [frame.id, measuredPart(frame)]));
  session.show(looks, {
    label,
    text: textOf(reference, others, matches),
    edits: (frames) => editsOf(frames, looks),
    holds(frames) {
      const now = new Map(frames.map((frame) => [frame.id, frame]));
      return [...restsOn].every(([id, part]) => now.has(id) && measuredPart(now.get(id)!) === part);
    },
  });
  session.announce(t("The match is shown and not yet written. Apply or discard it."));
}

/** Thumbnails of frames, fetched a few at a time. */
async function thumbnails(session: SheetSession, frames: readonly FrameEntry[]): Promise<Map<string, Proxy>> {
  const found = new Map<string, Proxy>();
  const waiting = [...frames];
  const fetchNext = async (): Promise<void> => {
    for (let frame = waiting.shift(); frame; frame = waiting.shift())
      found.set(frame.id, await session.client.request("thumbnail", { frame: frame.id }, { limit: LIMIT }));
  };
  await Promise.all(Array.from({ length: AT_ONCE }, fetchNext));
  return found;
}

function sideOf(proxy: Proxy, { area, look }: FrameEntry) {
  const source = sourceOf(proxy);
  return { sample: pictureSample(source, area), look, weights: source.weights };
}

const MATCHED: ReadonlySet<Control["key"]> = new Set(["exposure", "magenta", "yellow"]);
const controls = CONTROLS.filter(({ key }) => MATCHED.has(key));

/** The look with the values as the recipe will state them. */
function matchedLook(look: FrameLook, { exposure, filtration, filtered }: FrameMatch): FrameLook {
  const values: Partial<Record<Control["key"], number>> = { exposure, ...(filtered ? filtration : {}) };
  return controls.reduce((now, control) => {
    const value = values[control.key];
    return value === undefined ? now : control.with(now, allowed(control, value));
  }, look);
}

/** What a match rests on: equal as long as the frame's scan, crop and look are. Choice, rank and notes do not count. */
const measuredPart = ({ source, area, look }: FrameEntry): string => JSON.stringify([source, area, look]);

/** @param roll all frames of the roll as it is now */
function editsOf(roll: readonly FrameEntry[], looks: ReadonlyMap<string, FrameLook>): ValueEdit[] {
  const frames = roll.filter(({ id }) => looks.has(id));
  return controls.flatMap((control) => {
    const changed = frames.filter((frame) => control.of(looks.get(frame.id)!) !== control.of(frame.look));
    return setOnFrames(roll, changed, control.path, (frame) => control.of(looks.get(frame.id) ?? frame.look));
  });
}

function textOf(reference: FrameEntry, frames: readonly FrameEntry[], matches: readonly FrameMatch[]): string {
  const isColour = reference.look.film !== "black-and-white-negative";
  const unfiltered = frames.filter((_, i) => !matches[i]!.filtered).map(({ id }) => id);
  const parts = [t("Shown, not written: {0} matched to frame {1}.", countText(frames.length), reference.id)];
  if (isColour && unfiltered.length > 0)
    parts.push(t("Too little grey to set filtration by: frame {0}.", unfiltered.join(", ")));
  return parts.join(" ");
}
