/** Controls from the browser's own elements, styled with the theme's variables (preview.css). */
import { type ButtonSpec, type CheckSpec, type Choice, type ChoiceSpec, faceOf, type Kit, nameOf } from "./kit.ts";

export const nativeKit: Kit = {
  button({ label, title, icon, beside, kind = "secondary", pressed, onPress }: ButtonSpec) {
    const element = document.createElement("button");
    element.type = "button";
    element.className = `button ${kind}${icon ? " icon" : ""}`;
    element.title = title ?? "";
    if (icon) {
      element.append(...faceOf(icon, beside));
      element.setAttribute("aria-label", nameOf({ label, title, beside }));
    } else element.textContent = label;
    const showPressed = (now: boolean): void => {
      element.setAttribute("aria-pressed", String(now));
      element.dataset["pressed"] = String(now);
    };
    if (pressed !== undefined) showPressed(pressed);
    element.addEventListener("click", onPress);
    return {
      element,
      set(change) {
        if (change.label !== undefined && !icon) element.textContent = change.label;
        if (change.title !== undefined) {
          element.title = change.title;
          if (icon) element.setAttribute("aria-label", nameOf({ label, title: change.title, beside }));
        }
        if (change.enabled !== undefined) element.disabled = !change.enabled;
        if (change.pressed !== undefined) showPressed(change.pressed);
      },
    };
  },

  choice<T extends string>({ label, options, value, onChange }: ChoiceSpec<T>): Choice<T> {
    const element = document.createElement("select");
    element.className = "choice";
    element.setAttribute("aria-label", label);
    const fill = (all: ChoiceSpec<T>["options"]): void =>
      element.replaceChildren(
        ...all.map(([key, words]) => {
          const option = document.createElement("option");
          option.value = key;
          option.textContent = words;
          return option;
        }),
      );
    fill(options);
    element.value = value;
    element.addEventListener("change", () => onChange(element.value as T));
    return {
      element,
      set(change) {
        const kept = element.value;
        if (change.options) {
          fill(change.options);
          element.value = kept;
        }
        if (change.value !== undefined) element.value = change.value;
        if (change.enabled !== undefined) element.disabled = !change.enabled;
      },
    };
  },

  check({ label, title, checked, onChange }: CheckSpec) {
    const element = document.createElement("label");
    element.className = "check";
    element.title = title ?? "";
    const box = document.createElement("input");
    box.type = "checkbox";
    box.checked = checked;
    box.addEventListener("change", () => onChange(box.checked));
    element.append(box, label);
    return {
      element,
      set(change) {
        if (change.checked !== undefined) box.checked = change.checked;
        if (change.enabled !== undefined) box.disabled = !change.enabled;
      },
    };
  },
};
