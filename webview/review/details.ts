/** What the picture shows in words and numbers: the frame's differences, the values that changed, remarks. */
import { el } from "../dom.ts";
import { hasNoVisibleChange, type ReviewChange } from "../../extension/review-report.ts";
import type { Actions, ReviewState, Session } from "./session.ts";
import { type Entry, framesText, keyOf, kindText, type ShownFrame, type ShownRecipe } from "./shown.ts";
import { t } from "../translate.ts";

export function makeDetails(session: Session): HTMLElement {
  const details = el("section", { class: "details", "aria-label": t("What changed") });
  let shown: readonly unknown[] = [];
  session.on((state) => {
    const { entry, review, unfolded, taken, message } = state;
    const key = entry && keyOf(entry);
    const now = [key, review, entry?.fold ? unfolded : undefined, taken, message];
    if (now.every((one, i) => one === shown[i]) && shown.length > 0) return;
    const isSame = shown[0] === key;
    shown = now;
    const { scrollTop } = details;
    details.replaceChildren(...detailsOf(state, session));
    // A change that was reverted leaves the others where they were.
    details.scrollTop = isSame ? scrollTop : 0;
  });
  return details;
}

function detailsOf({ entry, message, taken, unfolded }: ReviewState, session: Session): HTMLElement[] {
  if (!entry) return [el("p", { class: "note", role: "status" }, message ?? t("No recipe changed."))];
  if (entry.fold) return foldedParts(entry, entry.fold, unfolded.has(entry.recipe.file), session);
  return partsOf(entry, session.actions, taken);
}

/** Frames whose change nobody sees, with their figures. */
function foldedParts({ recipe }: Entry, fold: readonly ShownFrame[], isOpen: boolean, session: Session): HTMLElement[] {
  const heads = [t("frame"), t("95 % below"), t("at most")];
  const rows = fold.map(({ id, title, difference }) =>
    el(
      "tr",
      {},
      el("td", {}, title ? `${id} ${title}` : id),
      el("td", { class: "value" }, difference?.p95.toFixed(2) ?? ""),
      el("td", { class: "value" }, difference?.max.toFixed(2) ?? ""),
    ),
  );
  return [
    el(
      "header",
      {},
      el("h2", {}, t("No visible change: {0}", framesText(fold.length))),
      button(isOpen ? t("Fold") : t("List them"), () => session.toggleFold(recipe)),
    ),
    el("p", { class: "note" }, t("95 of 100 pixels differ by less than ΔE00 0.5, and none by 1 or more.")),
    el(
      "table",
      {},
      el("thead", {}, el("tr", {}, ...heads.map((head) => el("th", { scope: "col" }, head)))),
      el("tbody", {}, ...rows),
    ),
  ];
}

function partsOf({ recipe, frame }: Entry, actions: Actions | undefined, taken: ReviewState["taken"]): HTMLElement[] {
  const changes = recipe.changes.filter((change) =>
    frame ? change.frame === frame.id || change.followers.includes(frame.id) : change.frame === undefined,
  );
  return [
    frame ? frameHead(recipe, frame, actions) : recipeHead(recipe, actions),
    ...recipe.problems.map((problem) => el("p", { class: "note error" }, problem)),
    ...(frame ? frame.notes.map((note) => el("p", { class: "note" }, note)) : notesOf(recipe)),
    ...(changes.length > 0 ? [tableOf(recipe, frame, changes, actions, taken)] : []),
    ...(!frame && recipe.impact.length > 0 ? [impactOf(recipe)] : []),
  ];
}

function frameHead(recipe: ShownRecipe, frame: ShownFrame, actions: Actions | undefined): HTMLElement {
  const { id, title, was, status, difference, reframed, pending } = frame;
  const state =
    status === "changed" ? (was ? t("was frame {0}", was) : "") : status === "added" ? t("new") : t("removed");
  const head = el(
    "header",
    {},
    el("h2", {}, t("Frame {0}", id), title ? el("span", { class: "title" }, ` ${title}`) : undefined),
    state ? el("span", { class: "chip" }, state) : undefined,
    reframed
      ? el("span", { class: "chip", title: t("The difference is measured within the later framing.") }, t("recropped"))
      : undefined,
    hasNoVisibleChange(frame) ? el("span", { class: "chip" }, t("no visible change")) : undefined,
    pending ? el("span", { class: "chip" }, t("being drawn")) : difference ? numbersOf(difference) : undefined,
  );
  if (actions && status !== "removed") head.append(button(t("Note…"), () => actions.note(recipe.file, id)));
  return head;
}

function numbersOf({ mean, p95, max }: NonNullable<ShownFrame["difference"]>): HTMLElement {
  const one = (name: string, value: number): HTMLElement =>
    el("span", { class: "number" }, el("span", { class: "label" }, name), el("b", {}, value.toFixed(2)));
  return el(
    "span",
    { class: "numbers", title: t("ΔE00 over all pixels (ISO/CIE 11664-6)") },
    el("span", { class: "label" }, "ΔE00"),
    one(t("mean"), mean),
    one(t("95 % below"), p95),
    one(t("at most"), max),
  );
}

function recipeHead(recipe: ShownRecipe, actions: Actions | undefined): HTMLElement {
  const head = el(
    "header",
    {},
    el("h2", {}, recipe.title ?? recipe.file),
    el("span", { class: "chip" }, kindText(recipe.kind)),
    el("code", {}, recipe.file),
  );
  if (actions) {
    head.append(button(t("Compare the texts"), () => actions.compareTexts(recipe.file)));
    if (recipe.status !== "removed") head.append(button(t("Note…"), () => actions.note(recipe.file, undefined)));
  }
  return head;
}

function notesOf({ formattingOnly, status, was, kind, of, changes, problems }: ShownRecipe): HTMLElement[] {
  const note = (text: string): HTMLElement => el("p", { class: "note" }, text);
  const notes: HTMLElement[] = [];
  if (was) notes.push(note(t("Renamed from {0}.", was)));
  if (formattingOnly) notes.push(note(t("Only comments, order or layout changed; every value is as it was.")));
  else if (status === "added")
    notes.push(note(kind === "roll" ? t("A new roll with {0} frames.", of) : t("A new stock.")));
  else if (status === "removed")
    notes.push(note(kind === "roll" ? t("The roll was deleted.") : t("The stock was deleted.")));
  else if (status === "affected") notes.push(note(t("The roll’s own text did not change; values of its stock did.")));
  else if (changes.length === 0 && problems.length === 0 && !was) notes.push(note(t("Every value is as it was.")));
  return notes;
}

function tableOf(
  recipe: ShownRecipe,
  frame: ShownFrame | undefined,
  changes: readonly ReviewChange[],
  actions: Actions | undefined,
  taken: ReviewState["taken"],
): HTMLElement {
  const body = el("tbody");
  let group = "";
  for (const change of changes) {
    const opens = change.group !== group;
    group = change.group;
    body.append(rowOf(recipe, frame, change, opens, actions, taken.get(change.id)));
  }
  const heads = [t("group"), t("value"), t("before"), t("now"), t("source"), ...(actions ? [t("actions")] : [])];
  return el("table", {}, el("thead", {}, el("tr", {}, ...heads.map((head) => el("th", { scope: "col" }, head)))), body);
}

function rowOf(
  recipe: ShownRecipe,
  frame: ShownFrame | undefined,
  change: ReviewChange,
  opens: boolean,
  actions: Actions | undefined,
  taken: "before" | "after" | undefined,
): HTMLElement {
  const { group, name, before, after, kind, text, origin, followers } = change;
  const inherited = frame !== undefined && change.frame === undefined;
  const sourceText = inherited
    ? [recipe.kind === "roll" ? t("follows the roll") : t("follows the stock"), ...(origin ? [origin] : [])].join(": ")
    : [origin, frame ? "" : reachOf(followers, recipe.of)].filter(Boolean).join("; ");
  const plain = before === undefined && after === undefined;
  const row = el(
    "tr",
    { class: `${kind}${opens ? " opens" : ""}` },
    opens ? el("th", { scope: "row" }, group) : el("td"),
    plain ? el("td", { colspan: "3" }, text) : el("td", {}, name),
    ...(plain
      ? []
      : [el("td", { class: "value was" }, before ?? t("none")), el("td", { class: "value" }, after ?? t("none"))]),
    el("td", { class: "whose" }, kind === "restated" ? t("same value; {0}", sourceText) : sourceText),
  );
  if (actions) row.append(actionsCell(recipe, change, actions, taken));
  return row;
}

/** What can be done with a change, and what was done with it. */
function actionsCell(
  recipe: ShownRecipe,
  { id, place, name, kind, frame }: ReviewChange,
  actions: Actions,
  taken: "before" | "after" | undefined,
): HTMLElement {
  const cell = el("td", { class: "actions" });
  if (taken)
    cell.append(
      el("span", { class: "chip", role: "status" }, taken === "before" ? t("reverted in the text") : t("accepted")),
    );
  if (place) cell.append(button(t("Text"), () => actions.showText(id), t("Go to {0} in the text", name)));
  cell.append(button(t("Revert"), () => actions.take(id, "before"), t("Make {0} what it was before", name)));
  // What the working tree says is accepted already.
  if (actions.canAccept)
    cell.append(
      button(t("Accept"), () => actions.take(id, "after"), t("Set {0} to its value in the later state", name)),
    );
  if (recipe.status !== "removed" && kind !== "removed")
    cell.append(button(t("Note…"), () => actions.note(recipe.file, frame, name), t("Write a note on {0}", name)));
  return cell;
}

const reachOf = (followers: readonly string[], of: number): string =>
  followers.length === 0
    ? ""
    : followers.length === of
      ? t("all {0} frames follow", of)
      : t("{0} of {1} frames follow", followers.length, of);

function impactOf({ impact }: ShownRecipe): HTMLElement {
  return el(
    "table",
    { class: "impact" },
    el(
      "thead",
      {},
      el(
        "tr",
        {},
        el("th", { scope: "col" }, t("impact on")),
        el("th", { scope: "col" }, t("frames that look different")),
      ),
    ),
    el(
      "tbody",
      {},
      ...impact.map(({ file, title, frames, of }) =>
        el(
          "tr",
          {},
          el("td", {}, title ? `${title} · ` : "", el("code", {}, file)),
          el("td", { class: "value" }, t("{0} of {1}", frames, of)),
        ),
      ),
    ),
  );
}

function button(label: string, press: () => void, title?: string): HTMLElement {
  const made = el("button", { type: "button", title }, label);
  made.addEventListener("click", press);
  return made;
}
