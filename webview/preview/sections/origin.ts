/** Where a value comes from, beside its control, with the way back to the inherited one. */
import { el } from "../../dom.ts";
import { keyOf, type Session } from "../session.ts";
import { levelText, placeText, type Scope, type Provenance, provenance } from "../../state/cascade.ts";
import { resetValue } from "../../state/edits.ts";
import { type Button, kit } from "../../ui/index.ts";
import { ICONS } from "../icons.ts";
import { t } from "../../translate.ts";

export interface OriginMark {
  readonly element: HTMLElement;
  /** @param moves whether a value that the frame states itself moves with the roll's */
  refresh(now: Provenance | undefined, moves?: boolean): void;
}

/** @param format how a value is put in words */
export function originMark(
  session: Session,
  name: string,
  path: readonly (string | number)[],
  format: (value: unknown) => string,
  scopeOf: () => Scope = () => session.store.get().ui.scope,
): OriginMark {
  const level = el("button", { type: "button", class: "level" });
  level.addEventListener("click", () => {
    const frame = session.frame();
    const shown = provenanceOf(session, path, scopeOf());
    if (!frame || !shown?.stated || shown.level === "default") return;
    void session.client.request("reveal", { frame: frame.id, path, level: shown.level }).catch(() => undefined);
  });
  const reset: Button = kit.button({
    label: t("Reset"),
    title: t("Reset {0} to the inherited value", name),
    icon: ICONS.reset,
    kind: "quiet",
    onPress: () => {
      const frame = session.frame();
      if (frame) void session.commit(t("{0} reset", name), resetValue(scopeOf(), frame.id, path));
    },
  });
  const element = el("span", { class: "origin" }, level, reset.element);
  return {
    element,
    refresh(now, moves = false) {
      const frame = session.frame()?.id ?? "";
      if (!now) {
        level.textContent = "";
        level.disabled = true;
        reset.set({ enabled: false });
        return;
      }
      level.textContent = now.overridden ? `${levelText(now.level)} ≠` : levelText(now.level);
      level.title = !now.overridden
        ? placeText(now)
        : moves
          ? t("{0}. Frame {1} states its own value, which moves by the same amount.", placeText(now), frame)
          : t("{0}. Frame {1} states its own value, so this picture does not change.", placeText(now), frame);
      level.setAttribute("aria-label", levelName(name, now, level.textContent));
      level.dataset["level"] = now.level;
      level.disabled = now.level === "default";
      reset.set({
        enabled: now.own,
        title: now.own
          ? t("Reset {0} to {1} ({2})", name, format(now.inherited), levelText(now.inheritedLevel))
          : t("{0} is inherited", name),
      });
      element.classList.toggle("own", now.own);
    },
  };
}

/** The button's spoken name: what is seen first, then of which value, so that each button has a name of its own. */
function levelName(name: string, { overridden }: Provenance, text: string): string {
  return overridden ? t("{0}: {1}, the frame differs", text, name) : t("{0}: {1}", text, name);
}

export function provenanceOf(
  session: Session,
  path: readonly (string | number)[],
  scope: Scope,
): Provenance | undefined {
  const cascade = session.store.get().cascades[keyOf(path)];
  return cascade && provenance(cascade, scope);
}
