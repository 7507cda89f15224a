/** Spots that the survey proposes for the frame: taken over singly or all at once, or dismissed and restored. */
import { isLine, middleOf, type Spot } from "../../../extension/engine/image/spot.ts";
import type { FrameEntry, PreviewRequests } from "../../../extension/messages.ts";
import { el } from "../../dom.ts";
import type { Session } from "../session.ts";
import { setSpots } from "../../state/edits.ts";
import { kit } from "../../ui/index.ts";
import { section } from "./section.ts";
import { t } from "../../words.ts";
import { reasonOf } from "../../reason.ts";

type Kind = "film" | "light";

interface Proposal {
  readonly kind: Kind;
  readonly spot: Spot;
}

/** A survey of a whole roll takes its time. */
const SURVEY_LIMIT = 3_600_000;

const proposalsOf = ({ film, light }: Record<Kind, readonly Spot[]>): Proposal[] => [
  ...film.map((spot): Proposal => ({ kind: "film", spot })),
  ...light.map((spot): Proposal => ({ kind: "light", spot })),
];

/** The list. Rings lie over the picture while the list is in use, or the tool for spots in hand. */
export function makeProposals(session: Session): HTMLElement {
  let answer: PreviewRequests["proposals"]["reply"] | undefined;
  /** What the answer is about: a frame as it is in one state of the roll, and the survey's number. */
  let asked: { readonly frame: FrameEntry; readonly surveys: number } | undefined;
  let shown: { readonly frame: FrameEntry; readonly all: readonly Proposal[] } | undefined;
  let chosen: Proposal | undefined;
  let inUse = false;
  let surveying = false;

  const list = el("ul", { class: "spots", "aria-label": t("Proposed spots") });
  const hint = el("p", { class: "hint" });
  const survey = kit.button({
    label: t("Survey the scans"),
    title: t("Measures every scan of the roll, and proposes the dust in it to be healed"),
    kind: "secondary",
    onPress: () => void runSurvey(),
  });
  const all = kit.button({
    label: t("Accept all"),
    title: t("Writes every spot of the list into the recipe, as one step of undo"),
    kind: "secondary",
    onPress: () => shown && accept(shown.frame, shown.all),
  });
  const buttons = el("div", { class: "buttons" }, all.element, survey.element);
  const overList = el("ul", { class: "spots", "aria-label": t("Dismissed") });
  const overTitle = el("summary", {});
  const over = el("details", { class: "over", hidden: "" }, overTitle, overList);
  const element = section(session, "proposals", t("Dust found by the survey"), hint, list, buttons, over);

  function ask(frame: FrameEntry, surveys: number): void {
    if (asked?.frame === frame && asked.surveys === surveys) return;
    const own = (asked = { frame, surveys });
    session.client.request("proposals", { frame: frame.id }).then(
      (found) => {
        if (asked !== own) return;
        answer = found;
        draw(frame);
      },
      (error: unknown) => {
        if (asked === own) session.say(reasonOf(error));
      },
    );
  }

  async function runSurvey(): Promise<void> {
    surveying = true;
    survey.set({ enabled: false });
    try {
      await session.client.request("survey", {}, { limit: SURVEY_LIMIT });
    } catch (error) {
      session.store.set({ editFailure: reasonOf(error) });
    } finally {
      surveying = false;
      survey.set({ enabled: true });
    }
  }

  /** One edit, one step of undo, whether it is one spot or all. */
  function accept(frame: FrameEntry, taken: readonly Proposal[]): void {
    const of = (kind: Kind, known: readonly Spot[]): ReturnType<typeof setSpots> => {
      const fresh = taken.filter((one) => one.kind === kind).map(({ spot }) => spot);
      return fresh.length === 0 ? [] : setSpots(kind, frame.id, [...known, ...fresh]);
    };
    const edits = [...of("film", frame.spots), ...of("light", frame.lightSpots)];
    void session.commit(taken.length === 1 ? t("Spot added") : t("{0} spots added", taken.length), edits);
  }

  /** The host keeps it, and tells that the proposals have changed. */
  async function pass(frame: FrameEntry, { kind, spot }: Proposal, isOver: boolean): Promise<void> {
    try {
      await session.client.request("pass", { frame: frame.id, kind, spot, over: isOver });
      session.say(isOver ? t("Dismissed") : t("Restored"));
    } catch (error) {
      const editFailure = reasonOf(error);
      session.store.set({ editFailure, said: editFailure });
    }
  }

  function draw(frame: FrameEntry): void {
    if (!answer) return;
    const proposals = proposalsOf(answer);
    const passed = proposalsOf(answer.passed);
    shown = { frame, all: proposals };
    chosen = undefined;
    redraw(
      list,
      proposals.map((one) =>
        rowOf(one, [t("Accept"), () => accept(frame, [one])], [t("Dismiss"), () => void pass(frame, one, true)]),
      ),
    );
    redraw(
      overList,
      passed.map((one) => rowOf(one, [t("Restore"), () => void pass(frame, one, false)])),
    );
    hint.textContent = answer.surveyed
      ? proposals.length === 0
        ? t("Nothing to heal is proposed for this frame.")
        : ""
      : t("The scan of this frame has not been surveyed.");
    hint.hidden = hint.textContent === "";
    overTitle.textContent = t("Dismissed: {0}", passed.length);
    over.hidden = passed.length === 0;
    all.element.hidden = proposals.length === 0;
    survey.element.hidden = answer.surveyed;
    ring();
  }

  /** Puts rows in place of a list's. The keyboard goes on with what has come in the place of the one that is done. */
  function redraw(of: HTMLElement, rows: readonly HTMLElement[]): void {
    const focused = rowWithFocus(of);
    of.replaceChildren(...rows);
    if (focused >= 0) focusRow(of, Math.min(focused, rows.length - 1));
  }

  function rowOf(one: Proposal, ...actions: readonly (readonly [name: string, run: () => void])[]): HTMLElement {
    const [x, y] = middleOf(one.spot);
    const place = [(x * 100).toFixed(1), (y * 100).toFixed(1)];
    const words = isLine(one.spot)
      ? one.kind === "film"
        ? t("Film: hair or scratch at {0}, {1} % of the width", ...place)
        : t("Sensor or lens: hair at {0}, {1} % of the width", ...place)
      : one.kind === "film"
        ? t("Film: {0}, {1} % of the width", ...place)
        : t("Sensor or lens: {0}, {1} % of the width", ...place);
    const buttons = actions.map(([name, run]) => {
      const button = el("button", { type: "button", class: "link", "aria-label": `${name}. ${words}` }, name);
      button.addEventListener("click", run);
      return button;
    });
    const row = el(
      "li",
      {},
      words,
      el("span", {}, ...buttons.flatMap((button, i) => (i === 0 ? [button] : [" ", button]))),
    );
    row.addEventListener("pointerenter", () => choose(one));
    row.addEventListener("focusin", () => choose(one));
    return row;
  }

  const rowWithFocus = (of: HTMLElement): number =>
    [...of.children].findIndex((row) => row.contains(document.activeElement));
  const focusRow = (of: HTMLElement, index: number): void => of.children[index]?.querySelector("button")?.focus();

  function choose(one: Proposal | undefined): void {
    chosen = one;
    ring();
  }

  /** Puts the rings over the picture, or takes them away. One that was dismissed is ringed while the list is at it. */
  function ring(): void {
    const { ui, proposals } = session.store.get();
    const seen = element.open && (inUse || ui.tool === "spots") && shown?.frame.id === session.frame()?.id;
    const open = seen && shown ? shown.all : [];
    const ringed = seen && chosen && !open.includes(chosen) ? [...open, chosen] : open;
    const spots = ringed.map(({ spot }) => spot);
    if (spots.length === 0) {
      if (proposals) session.store.set({ proposals: undefined });
      return;
    }
    const isSame = spots.length === proposals?.spots.length && spots.every((spot, i) => spot === proposals.spots[i]);
    const at = chosen && ringed.indexOf(chosen);
    if (!isSame || proposals.chosen !== at) session.store.set({ proposals: { spots, chosen: at } });
  }

  const use = (now: boolean): void => {
    inUse = now || element.matches(":hover, :focus-within");
    if (!inUse) chosen = undefined;
    ring();
  };
  for (const name of ["pointerenter", "focusin"]) element.addEventListener(name, () => use(true));
  for (const name of ["pointerleave", "focusout"])
    element.addEventListener(name, () => queueMicrotask(() => use(false)));
  for (const of of [list, overList])
    of.addEventListener("keydown", (event) => {
      const step = event.key === "ArrowDown" ? 1 : event.key === "ArrowUp" ? -1 : 0;
      const at = rowWithFocus(of);
      if (step === 0 || at < 0) return;
      event.preventDefault();
      event.stopPropagation();
      focusRow(of, Math.min(of.children.length - 1, Math.max(0, at + step)));
    });
  session.store.on(({ roll, surveys }) => {
    const frame = session.frame();
    element.hidden = !frame || !roll?.trusted;
    if (frame && roll?.trusted) ask(frame, surveys);
    if (!surveying && frame && shown && shown.frame.id !== frame.id) {
      list.replaceChildren();
      over.hidden = true;
    }
    ring();
  });
  return element;
}
