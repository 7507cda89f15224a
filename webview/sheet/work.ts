/** What is done with the selection: values, choice and rank, framing, copying, matching, export. */
import { el } from "../dom.ts";
import type { FrameEntry, ValueEdit } from "../../extension/messages.ts";
import {
  mirrorEach,
  rankBy,
  setRank,
  shareCrop,
  switchChoice,
  switchSkip,
  turnBy,
} from "../state/sheet/sheet-edits.ts";
import { t } from "../translate.ts";
import { type Button, kit } from "../ui/index.ts";
import { offerMatch } from "./matching.ts";
import { countText, type SheetSession } from "./sheet-session.ts";
import { makeValues } from "./values.ts";

/** Writing pictures of many frames takes its time, and dialogs wait for people. */
const PATIENT = { limit: 24 * 3_600_000 };
/** Frames that fit side by side. */
export const MAX_BESIDE = 4;

/** One gesture on the selection: its name, and its edits. */
function gesture(
  session: SheetSession,
  label: (count: string) => string,
  edit: (frames: readonly FrameEntry[]) => ValueEdit[],
) {
  return (): void => {
    const frames = session.targets();
    if (frames.length > 0) void session.commit(label(countText(frames.length)), edit(frames));
  };
}

/** The gestures that have a key as well as a button. */
export function makeGestures(session: SheetSession) {
  const chosen = (choice: "keep" | "reject") =>
    gesture(
      session,
      (count) => (choice === "keep" ? t("Keep: {0}", count) : t("Reject: {0}", count)),
      (frames) => switchChoice(frames, choice),
    );
  const ranked = (by: 1 | -1) =>
    gesture(
      session,
      (count) => (by > 0 ? t("Rank raised: {0}", count) : t("Rank lowered: {0}", count)),
      (frames) => rankBy(frames, by),
    );
  return {
    keep: chosen("keep"),
    reject: chosen("reject"),
    rankUp: ranked(1),
    rankDown: ranked(-1),
    beside: (): void => {
      const ids = session.targets().map(({ id }) => id);
      if (ids.length < 2 || ids.length > MAX_BESIDE)
        return session.store.set({
          failure: t("Select two, three or four frames to see them side by side."),
        });
      session.store.set({ beside: ids, failure: undefined });
      session.announce(t("Side by side: {0}", ids.join(", ")));
    },
    match: (): void => void session.attempt(() => offerMatch(session)),
  };
}

export function makeWork(session: SheetSession, gestures: ReturnType<typeof makeGestures>): HTMLElement {
  const head = el("h2", { class: "targets" });
  session.store.on(() => {
    const frames = session.targets();
    const text =
      frames.length === 0
        ? t("No frame")
        : frames.length === 1
          ? t("Frame {0}", frames[0]!.id)
          : t("{0} frames", frames.length);
    if (head.textContent !== text) head.textContent = text;
  });
  return el(
    "aside",
    { class: "side", "aria-label": t("Selected frames") },
    head,
    makeValues(session),
    part(session, t("Choice and rank"), choiceButtons(session, gestures)),
    part(session, t("Framing"), framingButtons(session)),
    part(session, t("Compare and match"), compareButtons(session, gestures)),
    part(session, t("Copy and export"), copyButtons(session)),
  );
}

function part(session: SheetSession, title: string, content: readonly Node[]): HTMLElement {
  const id = `part-${title.replaceAll(/\W+/g, "-").toLowerCase()}`;
  const element = el(
    "section",
    { class: "part", "aria-labelledby": id },
    el("h3", { id }, title),
    el("div", { class: "buttons" }, ...content),
  );
  void session;
  return element;
}

const button = (label: string, title: string, onPress: () => void): Button =>
  kit.button({ label, title, kind: "secondary", onPress });

function choiceButtons(
  session: SheetSession,
  { keep, reject, rankUp, rankDown }: ReturnType<typeof makeGestures>,
): Node[] {
  const keeping = kit.button({
    label: t("Keep"),
    title: t("Key K; again removes it"),
    kind: "secondary",
    pressed: false,
    onPress: keep,
  });
  const rejecting = kit.button({
    label: t("Reject"),
    title: t("Key R; again removes it"),
    kind: "secondary",
    pressed: false,
    onPress: reject,
  });
  const skipping = kit.button({
    label: t("Skip"),
    title: t("No pictures of these frames are written"),
    kind: "secondary",
    pressed: false,
    onPress: gesture(session, (count) => t("Skip: {0}", count), switchSkip),
  });
  const rank = kit.choice<string>({
    label: t("Rank of the selected frames"),
    options: [
      ["", t("No rank")],
      ...[1, 2, 3, 4, 5].map((n) => [String(n), t("Rank {0}", n)] as const),
      ["mixed", t("Ranks differ")],
    ],
    value: "",
    onChange(value) {
      const frames = session.targets();
      if (value !== "mixed")
        void session.commit(
          t("Rank: {0}", countText(frames.length)),
          setRank(frames, value === "" ? undefined : Number(value)),
        );
    },
  });
  session.store.on(() => {
    const frames = session.targets();
    const every = (test: (frame: FrameEntry) => boolean): boolean => frames.length > 0 && frames.every(test);
    keeping.set({ pressed: every(({ choice }) => choice === "keep"), enabled: frames.length > 0 });
    rejecting.set({ pressed: every(({ choice }) => choice === "reject"), enabled: frames.length > 0 });
    skipping.set({ pressed: every(({ skip }) => skip), enabled: frames.length > 0 });
    const ranks = new Set(frames.map((frame) => frame.rank));
    rank.set({ value: ranks.size > 1 ? "mixed" : String([...ranks][0] ?? ""), enabled: frames.length > 0 });
  });
  return [
    keeping.element,
    rejecting.element,
    skipping.element,
    rank.element,
    button(t("Rank up"), t("Key +"), rankUp).element,
    button(t("Rank down"), t("Key −"), rankDown).element,
  ];
}

function framingButtons(session: SheetSession): Node[] {
  const turn = (quarters: number) =>
    gesture(
      session,
      (count) => t("Turned: {0}", count),
      (frames) => turnBy(frames, quarters),
    );
  const crop = button(
    t("Same crop…"),
    t("Gives the selected frames the crop of the frame that has the focus"),
    () => void session.attempt(() => sameCrop(session)),
  );
  session.store.on(() => crop.set({ enabled: session.targets().length > 1 }));
  return [
    button(t("Turn left"), t("A quarter turn counter-clockwise"), turn(-1)).element,
    button(t("Turn right"), t("A quarter turn clockwise"), turn(1)).element,
    button(
      t("Mirror"),
      t("Swaps left and right of each"),
      gesture(session, (count) => t("Mirrored: {0}", count), mirrorEach),
    ).element,
    crop.element,
  ];
}

/** Asks first where crops of their own would be lost. */
async function sameCrop(session: SheetSession): Promise<void> {
  const from = session.focused();
  if (!from) return;
  const { edits, frames, replaced, measured } = shareCrop(from, session.targets());
  if (frames.length === 0) return session.announce(t("These frames have this crop already."));
  if (replaced > 0) {
    const lost =
      measured > 0
        ? t("{0} of them have a crop of their own, {1} of these as it was measured on the scan.", replaced, measured)
        : t("{0} of them have a crop of their own.", replaced);
    const message = `${t("The crop of frame {0} goes to {1}.", from.id, countText(frames.length))} ${lost}`;
    const { accepted } = await session.client.request("confirm", { message, accept: t("Replace crops") }, PATIENT);
    if (!accepted) return;
  }
  await session.commit(t("Crop of frame {0}: {1}", from.id, countText(frames.length)), edits);
}

function compareButtons(session: SheetSession, { beside, match }: ReturnType<typeof makeGestures>): Node[] {
  const side = button(t("Side by side"), t("Key S: two to four frames, with one zoom for all"), beside);
  const like = button(
    t("Match to this frame…"),
    t(
      "Key M: exposure and filtration of the selected frames, so that greys and mean tones agree with the frame that has the focus",
    ),
    match,
  );
  session.store.on(() => {
    const { length } = session.targets();
    side.set({ enabled: length >= 2 && length <= MAX_BESIDE });
    like.set({ enabled: length >= 2 });
  });
  return [side.element, like.element];
}

function copyButtons(session: SheetSession): Node[] {
  const { client } = session;
  const ids = (): string[] => session.targets().map(({ id }) => id);
  const copy = async (): Promise<void> => {
    const frame = session.focused();
    if (!frame) return;
    const { copied } = await client.request("copyValues", { frame: frame.id }, PATIENT);
    if (copied) session.announce(t("Values of frame {0} copied", frame.id));
  };
  const paste = async (): Promise<void> => {
    const { pasted } = await client.request("pasteValues", { frames: ids() }, PATIENT);
    if (pasted) session.announce(t("Values pasted: {0}", countText(ids().length)));
  };
  const exportThem = async (): Promise<void> => {
    const { files } = await client.request("exportFrames", { frames: ids() }, PATIENT);
    if (files.length > 0) session.announce(t("{0} pictures are written", files.length));
  };
  const run = (work: () => Promise<void>) => (): void => void session.attempt(work);
  return [
    button(t("Copy values…"), t("Groups of the focused frame’s own values"), run(copy)).element,
    button(t("Paste values"), t("Writes the copied values into the selected frames"), run(paste)).element,
    button(t("Export…"), t("Writes the pictures of the selected frames"), run(exportThem)).element,
  ];
}
