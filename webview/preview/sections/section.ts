/** A part of the side panel that opens and closes; which ones are closed is kept. */
import { el } from "../../dom.ts";
import type { Session } from "../session.ts";

export function section(
  session: Session,
  key: string,
  title: string,
  ...children: readonly (Node | string)[]
): HTMLDetailsElement {
  const id = `section-${key}`;
  const head = el("summary", {}, el("h2", { id }, title));
  const element = el("details", { class: "section", "data-section": key, "aria-labelledby": id }, head, ...children);
  element.open = !session.store.get().ui.closed.includes(key);
  element.addEventListener("toggle", () => {
    const closed = session.store.get().ui.closed.filter((c) => c !== key);
    session.ui({ closed: element.open ? closed : [...closed, key] });
  });
  return element;
}
