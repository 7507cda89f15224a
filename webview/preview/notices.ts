/** What is wrong, named beside the picture; the last good picture stays. And the line that is read to screen readers. */
import { el } from "../dom.ts";
import type { Session } from "./session.ts";
import { t } from "../translate.ts";

export function makeNotices(session: Session): { notices: HTMLElement; live: HTMLElement } {
  const notices = el("div", { class: "notices" });
  const live = el("div", { class: "live", role: "status", "aria-live": "polite" });
  let shown = "";
  const tryAgain = (): HTMLElement => {
    const button = el("button", { type: "button", class: "link" }, t("Try again"));
    button.addEventListener("click", () => session.retry());
    return button;
  };
  session.store.on(({ roll, failure, editFailure, source, current, loading, announcement }) => {
    if (live.textContent !== announcement) live.textContent = announcement;
    const frame = session.frame();
    const lines: { kind: string; text: string; again?: boolean }[] = [];
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
    if (roll && !frame) lines.push({ kind: "info", text: t("This roll has no frames yet.") });
    if (current && source && !failure)
      for (const words of source.warnings) lines.push({ kind: "warning", text: words });
    if (loading) lines.push({ kind: "busy", text: t("Preparing the scan of frame {0} …", frame?.id ?? "") });
    const key = JSON.stringify(lines);
    if (key === shown) return;
    shown = key;
    notices.replaceChildren(
      ...lines.map(({ kind, text: words, again }) => el("p", { class: kind }, words, again && tryAgain())),
    );
    notices.hidden = lines.length === 0;
  });
  return { notices, live };
}
