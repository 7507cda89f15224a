/** Lines above the grid: what waits for an answer, what could not be done, what is wrong with the recipe. */
import { el } from "../dom.ts";
import { t } from "../translate.ts";
import { kit } from "../ui/index.ts";
import type { SheetSession } from "./sheet-session.ts";

export function makeOffer(session: SheetSession): { readonly lines: HTMLElement; readonly live: HTMLElement } {
  const text = el("p", { id: "offer-text" });
  const apply = kit.button({
    label: t("Apply"),
    kind: "primary",
    onPress() {
      const { draft, roll } = session.store.get();
      if (!draft?.offer || !roll) return;
      const { offer, looks } = draft;
      // Answered: until it is written it is shown like a value that moves.
      session.show(looks);
      void session.commit(offer.label, offer.edits(roll.frames));
    },
  });
  const discard = kit.button({
    label: t("Discard"),
    kind: "secondary",
    onPress() {
      session.store.set({ draft: undefined });
      session.announce(t("The match is discarded."));
    },
  });
  const offer = el(
    "div",
    { class: "offer", role: "group", "aria-labelledby": "offer-text" },
    text,
    apply.element,
    discard.element,
  );
  const problems = el("div", { class: "notices" });
  const live = el("div", { class: "live", role: "status", "aria-live": "polite" });
  session.store.on(({ draft, failure, roll, announcement }) => {
    if (live.textContent !== announcement) live.textContent = announcement;
    const wasHidden = offer.hidden;
    offer.hidden = draft?.offer === undefined;
    if (draft?.offer && text.textContent !== draft.offer.text) text.textContent = draft.offer.text;
    // Whoever asked by a key answers by one.
    if (wasHidden && !offer.hidden) apply.element.focus();
    const lines = [
      ...(roll && !roll.trusted
        ? [t("Pictures are not shown in restricted mode. Trust this workspace to see them.")]
        : []),
      ...(failure === undefined ? [] : [failure]),
      ...(roll?.stale ? [errorText(roll)] : []),
      ...(roll?.frames.length === 0 ? [t("This roll has no frames yet.")] : []),
    ];
    if (problems.dataset["text"] === lines.join("\n")) return;
    problems.dataset["text"] = lines.join("\n");
    problems.replaceChildren(...lines.map((line) => el("p", { class: "error" }, line)));
    problems.hidden = lines.length === 0;
  });
  offer.hidden = true;
  problems.hidden = true;
  return { lines: el("div", { class: "lines" }, offer, problems), live };
}

function errorText(roll: NonNullable<ReturnType<SheetSession["store"]["get"]>["roll"]>): string {
  const first = roll.problems.find(({ severity }) => severity === "error");
  const kept = t("The pictures are those of the last text without errors.");
  return first ? `${t("{0}, line {1}: {2}", first.file, first.line, first.message)} ${kept}` : kept;
}
