/** The page of a review, in a report and in the editor's panel alike. */
import { el } from "../dom.ts";
import type { ReviewSide } from "../../extension/review-report.ts";
import { makeDetails } from "./details.ts";
import { keyHelp, listenToKeys } from "./keys.ts";
import { makeList } from "./list.ts";
import { type Mode, modes, type Session } from "./session.ts";
import { makeStage } from "./stage.ts";
import { FIT } from "./view.ts";
import { t } from "../translate.ts";

const modeNames = (): Readonly<Record<Mode, string>> => ({
  wipe: t("Wipe"),
  side: t("Side by side"),
  blink: t("Blink"),
  difference: t("Difference"),
});

export function openReview(session: Session, root: HTMLElement): void {
  const help = makeHelp();
  const stage = makeStage(session);
  const list = makeList(session);
  const title = el("h1");
  session.on(({ review }) =>
    title.replaceChildren(...sideParts(review.before), el("span", { class: "to" }, "→"), ...sideParts(review.after)),
  );
  const helpButton = el("button", { type: "button", title: t("Keys (?)"), "aria-label": t("Keys") }, "?");
  helpButton.addEventListener("click", () => help.showModal());
  root.replaceChildren(
    el("header", { class: "top" }, title, makeModes(session), helpButton),
    el("nav", { "aria-label": t("Changed rolls and frames") }, list),
    el("main", {}, stage, makeDetails(session)),
    help,
  );
  session.on(({ entry }) => root.classList.toggle("no-picture", !entry?.frame));
  listenToKeys(session, stage, help);
  list.focus({ preventScroll: true });
}

function sideParts({ label, subject }: ReviewSide): HTMLElement[] {
  return [el("span", { class: "side", title: subject }, label)];
}

function makeModes(session: Session): HTMLElement {
  const names = modeNames();
  const buttons = modes.map((mode) => {
    const button = el("button", { type: "button", title: `${names[mode]} (${mode[0]})` }, names[mode]);
    button.addEventListener("click", () => session.set({ mode }));
    return button;
  });
  const fit = el("button", { type: "button", title: t("Fit (0)"), class: "zoom" });
  fit.addEventListener("click", () => session.set({ view: FIT }));
  session.on(({ mode, view }) => {
    for (const [i, button] of buttons.entries()) button.setAttribute("aria-pressed", String(modes[i] === mode));
    fit.textContent = view.zoom === "fit" ? t("fit") : `${Math.round(view.zoom * 100)} %`;
  });
  return el("div", { class: "modes", role: "group", "aria-label": t("How to compare") }, ...buttons, fit);
}

function makeHelp(): HTMLDialogElement {
  const rows = keyHelp().map(([keys, does]) => el("tr", {}, el("td", {}, el("kbd", {}, keys)), el("td", {}, does)));
  const close = el("button", { type: "button" }, t("Close"));
  const dialog = el("dialog", { "aria-label": t("Keys") }, el("table", {}, el("tbody", {}, ...rows)), close);
  close.addEventListener("click", () => dialog.close());
  return dialog;
}
