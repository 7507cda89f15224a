/** Spots that the survey proposes for the frame: taken over singly or all at once, or dismissed and restored. */
import type { FrameEntry, PreviewRequests } from "../../../extension/messages.ts";
import { el } from "../../dom.ts";
import type { Session } from "../session.ts";
import { kit } from "../../ui/index.ts";
import type { SpeckPictures } from "../specks.ts";
import { accept, dismiss, type Proposal, proposalsOf } from "./proposal-actions.ts";
import { makeProposalList } from "./proposal-list.ts";
import { ProposalRings } from "./proposal-rings.ts";
import { section } from "./section.ts";
import { t } from "../../translate.ts";
import { reasonOf } from "../../reason.ts";

type Answer = PreviewRequests["proposals"]["reply"];

/** A survey of a whole roll takes its time. */
const SURVEY_LIMIT = 3_600_000;

/** The section of the side panel: the list of proposals, and below it those that were dismissed. */
export function makeProposals(session: Session, specks: SpeckPictures, showSheet: () => void): HTMLElement {
  let shown: { readonly frame: FrameEntry; readonly all: readonly Proposal[] } | undefined;
  const rings = new ProposalRings(session);
  /** Runs an action on the frame whose proposals are shown. */
  const onShown = (action: (frame: FrameEntry, all: readonly Proposal[]) => void): void => {
    if (shown) action(shown.frame, shown.all);
  };
  const list = makeProposalList(
    t("Proposed spots"),
    specks,
    [
      { name: t("Accept"), run: (one) => onShown((frame) => void accept(session, frame.id, [one])) },
      { name: t("Dismiss"), run: (one) => onShown((frame) => void dismiss(session, frame.id, one, true)) },
    ],
    (one) => rings.choose(one),
  );
  const dismissed = makeProposalList(
    t("Dismissed"),
    specks,
    [{ name: t("Restore"), run: (one) => onShown((frame) => void dismiss(session, frame.id, one, false)) }],
    (one) => rings.choose(one),
  );
  const hint = el("p", { class: "hint" });
  const survey = makeSurveyButton(session);
  const all = kit.button({
    label: t("Accept all"),
    title: t("Writes every spot of the list into the recipe, as one step of undo"),
    kind: "secondary",
    onPress: () => onShown((frame, proposals) => void accept(session, frame.id, proposals)),
  });
  const sheet = kit.button({
    label: t("All as pictures…"),
    title: t("Shows all of them at once, to be accepted or dismissed by keys (S)"),
    kind: "secondary",
    onPress: showSheet,
  });
  const buttons = el("div", { class: "buttons" }, all.element, sheet.element, survey.element);
  const dismissedTitle = el("summary", {});
  const dismissedPart = el("details", { class: "over", hidden: "" }, dismissedTitle, dismissed.element);
  const title = t("Dust found by the survey");
  const element = section(session, "proposals", title, hint, list.element, buttons, dismissedPart);

  function draw(frame: FrameEntry, answer: Answer): void {
    const proposals = proposalsOf(answer);
    shown = { frame, all: proposals };
    rings.set(frame, proposals);
    list.show(frame, proposals);
    dismissed.show(frame, proposalsOf(answer.dismissed));
    hint.textContent = hintOf(answer.surveyed, proposals.length);
    hint.hidden = hint.textContent === "";
    const count = answer.dismissed.film.length + answer.dismissed.light.length;
    dismissedTitle.textContent = t("Dismissed: {0}", count);
    dismissedPart.hidden = count === 0;
    all.element.hidden = sheet.element.hidden = proposals.length === 0;
    survey.element.hidden = answer.surveyed;
    rings.draw();
  }

  rings.follow(element);
  const request = makeQuestion(session, draw);
  session.store.on(({ roll, surveys }) => {
    const frame = session.frame();
    element.hidden = !frame || !roll?.trusted;
    if (frame && roll?.trusted) request(frame, surveys);
    if (!survey.isRunning() && frame && shown && shown.frame.id !== frame.id) {
      list.element.replaceChildren();
      dismissedPart.hidden = true;
    }
    rings.draw();
  });
  return element;
}

function hintOf(surveyed: boolean, proposals: number): string {
  if (!surveyed) return t("The scan of this frame has not been surveyed.");
  return proposals === 0 ? t("No spots are proposed for this frame.") : "";
}

/** Returns a function that asks for a frame's proposals once for each state of the roll and number of the survey. */
function makeQuestion(
  session: Session,
  onAnswer: (frame: FrameEntry, answer: Answer) => void,
): (frame: FrameEntry, surveys: number) => void {
  let requested: { readonly frame: FrameEntry; readonly surveys: number } | undefined;
  return (frame, surveys) => {
    if (requested?.frame === frame && requested.surveys === surveys) return;
    const own = (requested = { frame, surveys });
    session.client.request("proposals", { frame: frame.id }).then(
      (answer) => {
        if (requested === own) onAnswer(frame, answer);
      },
      (error: unknown) => {
        if (requested === own) session.announce(reasonOf(error));
      },
    );
  };
}

function makeSurveyButton(session: Session): { readonly element: HTMLElement; isRunning(): boolean } {
  let isRunning = false;
  const button = kit.button({
    label: t("Survey the scans"),
    title: t("Measures every scan of the roll, and proposes the dust in it to be healed"),
    kind: "secondary",
    onPress: () => void run(),
  });

  async function run(): Promise<void> {
    isRunning = true;
    button.set({ enabled: false });
    try {
      await session.client.request("survey", {}, { limit: SURVEY_LIMIT });
    } catch (error) {
      session.store.set({ editFailure: reasonOf(error) });
    } finally {
      isRunning = false;
      button.set({ enabled: true });
    }
  }
  return { element: button.element, isRunning: () => isRunning };
}
