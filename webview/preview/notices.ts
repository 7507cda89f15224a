/**
 * What is wrong, named over the foot of the picture, which keeps its size; the last good picture stays. And the line that
 * is read to screen readers.
 */
import { el } from "../dom.ts";
import { t } from "../translate.ts";
import { kit } from "../ui/index.ts";
import type { Model, Question } from "./model.ts";
import { noPrints } from "./proof.ts";
import type { Session } from "./session.ts";

interface Line {
  readonly kind: "error" | "warning" | "info" | "busy";
  readonly text: string;
  /** Whether the picture can be asked for again. */
  readonly again?: boolean;
}

export function makeNotices(session: Session): { notices: HTMLElement; live: HTMLElement } {
  const lines = el("div", { class: "notice-lines" });
  const question = el("div", { class: "question", role: "group", "aria-label": t("Question") });
  const notices = el("div", { class: "notices" }, lines, question);
  const live = el("div", { class: "live", role: "status", "aria-live": "polite" });
  const hide = kit.button({
    label: t("Hide"),
    title: t("Hide these notices until they change"),
    kind: "quiet",
    onPress: () => {
      hidden = shown;
      lines.hidden = true;
      notices.hidden = question.hidden;
    },
  });
  let shown = "";
  let hidden: string | undefined;
  let asked: Question | undefined;
  question.hidden = true;
  session.store.on((model) => {
    if (live.textContent !== model.announcement) live.textContent = model.announcement;
    if (asked !== model.question) {
      asked = model.question;
      showQuestion(session, question, asked);
    }
    const wanted = linesOf(session, model);
    const key = JSON.stringify(wanted);
    if (key !== shown) {
      shown = key;
      lines.replaceChildren(...wanted.map((line) => lineOf(session, line)));
      if (wanted.some(({ kind }) => kind !== "busy")) lines.append(hide.element);
    }
    lines.hidden = wanted.length === 0 || hidden === key;
    notices.hidden = lines.hidden && question.hidden;
  });
  return { notices, live };
}

/** Why the normal picture is shown in place of a proof. */
function proofLines({ ui, roll, proofFailure }: Model): readonly Line[] {
  if (!ui.proof || ui.view !== "print" || !roll?.trusted) return [];
  if (roll.prints.length === 0) return [{ kind: "info", text: noPrints() }];
  return proofFailure ? [{ kind: "warning", text: t("No proof: {0}", proofFailure) }] : [];
}

function lineOf(session: Session, { kind, text, again }: Line): HTMLElement {
  if (!again) return el("p", { class: kind }, text);
  const button = el("button", { type: "button", class: "link" }, t("Try again"));
  button.addEventListener("click", () => session.retry());
  return el("p", { class: kind }, text, button);
}

function showQuestion(session: Session, element: HTMLElement, question: Question | undefined): void {
  element.hidden = question === undefined;
  if (!question) return;
  const drop = (): void => session.store.set({ question: undefined });
  const accept = kit.button({
    label: question.accept,
    kind: "primary",
    onPress: () => {
      drop();
      question.run();
    },
  });
  const leave = kit.button({ label: t("Leave it"), kind: "secondary", onPress: drop });
  element.replaceChildren(
    el("p", { class: "warning" }, question.text),
    el("div", { class: "buttons" }, accept.element, leave.element),
  );
}

function linesOf(session: Session, model: Model): readonly Line[] {
  const { roll, failure, editFailure, source, current, loading } = model;
  const frame = session.frame();
  const lines: Line[] = [];
  if (roll && !roll.trusted)
    lines.push({
      kind: "info",
      text: t("Pictures are not shown in restricted mode. Trust this workspace to see them."),
    });
  if (editFailure) lines.push({ kind: "error", text: editFailure });
  const errors = roll?.problems.filter((p) => p.severity === "error") ?? [];
  const own = roll?.problems.filter((p) => p.severity === "warning" && p.frame === frame?.id) ?? [];
  const [first] = errors;
  if (roll && first) {
    const more = errors.length > 1 ? ` ${t("And {0} more.", errors.length - 1)}` : "";
    const kept = roll.stale ? ` ${t("The picture is that of the last text without errors.")}` : "";
    lines.push({
      kind: "error",
      text: t("{0}, line {1}: {2}", first.file, first.line, first.message) + more + kept,
    });
  }
  if (failure) lines.push({ kind: "error", text: failure, again: true });
  for (const p of own) lines.push({ kind: "warning", text: t("Line {0}: {1}", p.line, p.message) });
  lines.push(...proofLines(model));
  if (roll && !frame) lines.push({ kind: "info", text: t("This roll has no frames yet.") });
  if (current && source && !failure) for (const words of source.warnings) lines.push({ kind: "warning", text: words });
  // A picture that is made again with other spots stays in view meanwhile.
  if (loading && !current) lines.push({ kind: "busy", text: t("Preparing the scan of frame {0} …", frame?.id ?? "") });
  return lines;
}
