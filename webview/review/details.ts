/** What the picture shows in words and numbers: the frame's differences, the values that changed, remarks. */
import { el } from "../dom.ts";
import type { ReviewChange } from "../../extension/review-report.ts";
import type { Actions, Session } from "./session.ts";
import { type Entry, keyOf, type ShownFrame, type ShownRecipe } from "./shown.ts";

export function makeDetails(session: Session): HTMLElement {
  const details = el("section", { class: "details", "aria-label": "What changed" });
  let shown: string | undefined;
  let review: unknown;
  session.on((state) => {
    const key = state.entry && keyOf(state.entry);
    if (key === shown && review === state.review) return;
    shown = key;
    review = state.review;
    details.replaceChildren(...(state.entry ? partsOf(state.entry, session.actions) : []));
    details.scrollTop = 0;
  });
  return details;
}

function partsOf({ recipe, frame }: Entry, actions: Actions | undefined): HTMLElement[] {
  const changes = recipe.changes.filter((change) =>
    frame ? change.frame === frame.id || change.followers.includes(frame.id) : change.frame === undefined,
  );
  return [
    frame ? frameHead(recipe, frame, actions) : recipeHead(recipe, actions),
    ...recipe.problems.map((problem) => el("p", { class: "remark error" }, problem)),
    ...(frame ? frame.remarks.map((remark) => el("p", { class: "remark" }, remark)) : notesOf(recipe)),
    ...(changes.length > 0 ? [tableOf(recipe, frame, changes, actions)] : []),
    ...(!frame && recipe.impact.length > 0 ? [impactOf(recipe)] : []),
  ];
}

function frameHead(recipe: ShownRecipe, frame: ShownFrame, actions: Actions | undefined): HTMLElement {
  const { id, title, was, status, difference, reframed } = frame;
  const state = status === "changed" ? (was ? `was frame ${was}` : "") : status === "added" ? "new" : "removed";
  const head = el(
    "header",
    {},
    el("h2", {}, `Frame ${id}`, title ? el("span", { class: "title" }, ` ${title}`) : undefined),
    state ? el("span", { class: "chip" }, state) : undefined,
    reframed
      ? el("span", { class: "chip", title: "The difference is measured within the later framing." }, "framed anew")
      : undefined,
    difference ? numbersOf(difference) : undefined,
  );
  if (actions && status !== "removed") head.append(button("Note…", () => actions.note(recipe.file, id)));
  return head;
}

function numbersOf({ mean, p95, max }: NonNullable<ShownFrame["difference"]>): HTMLElement {
  const one = (name: string, value: number): HTMLElement =>
    el("span", { class: "number" }, el("span", { class: "label" }, name), el("b", {}, value.toFixed(2)));
  return el(
    "span",
    { class: "numbers", title: "ΔE00 over all pixels (ISO/CIE 11664-6)" },
    el("span", { class: "label" }, "ΔE00"),
    one("mean", mean),
    one("95 % below", p95),
    one("at most", max),
  );
}

function recipeHead(recipe: ShownRecipe, actions: Actions | undefined): HTMLElement {
  const head = el(
    "header",
    {},
    el("h2", {}, recipe.title ?? recipe.file),
    el("span", { class: "chip" }, recipe.kind),
    el("code", {}, recipe.file),
  );
  if (actions) {
    head.append(button("Compare the texts", () => actions.compareTexts(recipe.file)));
    if (recipe.status !== "removed") head.append(button("Note…", () => actions.note(recipe.file, undefined)));
  }
  return head;
}

function notesOf({ formattingOnly, status, was, kind, of, changes, problems }: ShownRecipe): HTMLElement[] {
  const say = (text: string): HTMLElement => el("p", { class: "remark" }, text);
  const notes: HTMLElement[] = [];
  if (was) notes.push(say(`Renamed from ${was}.`));
  if (formattingOnly) notes.push(say("Only comments, order or layout changed; every value is as it was."));
  else if (status === "added") notes.push(say(kind === "roll" ? `A new roll with ${of} frames.` : "A new stock."));
  else if (status === "removed") notes.push(say(`The ${kind} is gone.`));
  else if (status === "affected") notes.push(say("The roll’s own text is as it was; its stock’s values changed."));
  else if (changes.length === 0 && problems.length === 0 && !was) notes.push(say("Every value is as it was."));
  return notes;
}

function tableOf(
  recipe: ShownRecipe,
  frame: ShownFrame | undefined,
  changes: readonly ReviewChange[],
  actions: Actions | undefined,
): HTMLElement {
  const body = el("tbody");
  let group = "";
  for (const change of changes) {
    const opens = change.group !== group;
    group = change.group;
    body.append(rowOf(recipe, frame, change, opens, actions));
  }
  const heads = ["", "value", "before", "now", "whose value", ...(actions ? [""] : [])];
  return el("table", {}, el("thead", {}, el("tr", {}, ...heads.map((head) => el("th", { scope: "col" }, head)))), body);
}

function rowOf(
  recipe: ShownRecipe,
  frame: ShownFrame | undefined,
  change: ReviewChange,
  opens: boolean,
  actions: Actions | undefined,
): HTMLElement {
  const { group, name, before, after, kind, text, origin, followers } = change;
  const inherited = frame !== undefined && change.frame === undefined;
  const whose = inherited
    ? `follows the ${recipe.kind}${origin ? `: ${origin}` : ""}`
    : [origin, frame ? "" : reachOf(followers, recipe.of)].filter(Boolean).join("; ");
  const plain = before === undefined && after === undefined;
  const row = el(
    "tr",
    { class: `${kind}${opens ? " opens" : ""}` },
    el("th", { scope: "row" }, opens ? group : ""),
    plain ? el("td", { colspan: "3" }, text) : el("td", {}, name),
    ...(plain
      ? []
      : [el("td", { class: "value was" }, before ?? "none"), el("td", { class: "value" }, after ?? "none")]),
    el("td", { class: "whose" }, kind === "restated" ? `same value; ${whose}` : whose),
  );
  if (actions) {
    const { id } = change;
    const cell = el("td", { class: "actions" });
    if (change.place) cell.append(button("Text", () => actions.showText(id), `Go to ${name} in the text`));
    cell.append(button("Take back", () => actions.take(id, "before"), `Make ${name} what it was before`));
    // What the working tree says is accepted already.
    if (actions.canAccept)
      cell.append(button("Accept", () => actions.take(id, "after"), `Make ${name} what it is in the later state`));
    if (recipe.status !== "removed" && change.kind !== "removed")
      cell.append(button("Note…", () => actions.note(recipe.file, change.frame, name), `Write a remark on ${name}`));
    row.append(cell);
  }
  return row;
}

const reachOf = (followers: readonly string[], of: number): string =>
  followers.length === 0
    ? ""
    : followers.length === of
      ? `all ${of} frames follow`
      : `${followers.length} of ${of} frames follow`;

function impactOf({ impact }: ShownRecipe): HTMLElement {
  return el(
    "table",
    { class: "impact" },
    el(
      "thead",
      {},
      el("tr", {}, el("th", { scope: "col" }, "impact on"), el("th", { scope: "col" }, "frames that look different")),
    ),
    el(
      "tbody",
      {},
      ...impact.map(({ file, title, frames, of }) =>
        el(
          "tr",
          {},
          el("td", {}, title ? `${title} · ` : "", el("code", {}, file)),
          el("td", { class: "value" }, `${frames} of ${of}`),
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
