/** Controls from @vscode/webview-ui-toolkit. No other file imports it: it is archived (docs/decisions/webview-controls.md). */
import {
  provideVSCodeDesignSystem,
  vsCodeButton,
  vsCodeCheckbox,
  vsCodeDropdown,
  vsCodeOption,
} from "@vscode/webview-ui-toolkit";
import { type ButtonSpec, type CheckSpec, type Choice, type ChoiceSpec, faceOf, type Kit, nameOf } from "./kit.ts";

provideVSCodeDesignSystem().register(vsCodeButton(), vsCodeCheckbox(), vsCodeDropdown(), vsCodeOption());

/** What is used of the toolkit's elements; its own types would bring its whole framework along. */
type ToolkitElement = HTMLElement & { disabled: boolean; value: string; checked: boolean };
const make = (name: string): ToolkitElement => document.createElement(name) as ToolkitElement;

/**
 * States which way a button that stays in is. The toolkit's element has no role of its own, so a state on it reaches nobody:
 * it belongs on the button within, which is there once the element stands in the page. `data-pressed` is for styles.
 */
function pressedState(element: ToolkitElement): (pressed: boolean) => void {
  let now = false;
  const apply = (): void => {
    element.shadowRoot?.querySelector("button")?.setAttribute("aria-pressed", String(now));
  };
  return (pressed) => {
    now = pressed;
    element.dataset["pressed"] = String(pressed);
    apply();
    if (!element.isConnected) requestAnimationFrame(apply);
  };
}

export const toolkitKit: Kit = {
  button({ label, title, icon, beside, kind = "secondary", pressed, onPress }: ButtonSpec) {
    const element = make("vscode-button");
    element.setAttribute("appearance", icon || kind === "quiet" ? "icon" : kind);
    element.classList.add(kind);
    element.title = title ?? "";
    if (icon) {
      element.append(...faceOf(icon, beside));
      element.setAttribute("aria-label", nameOf({ label, title, beside }));
    } else {
      element.textContent = label;
      // The toolkit's icon buttons are called "Icon button" unless they are named.
      element.setAttribute("aria-label", label);
    }
    const showPressed = pressedState(element);
    if (pressed !== undefined) showPressed(pressed);
    element.addEventListener("click", () => {
      if (!element.disabled) onPress();
    });
    return {
      element,
      set(change) {
        if (change.label !== undefined && !icon) {
          element.textContent = change.label;
          element.setAttribute("aria-label", change.label);
        }
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
    const element = make("vscode-dropdown");
    element.classList.add("choice");
    element.setAttribute("aria-label", label);
    let [now, all] = [value, options];
    const fill = (): void =>
      element.replaceChildren(
        ...all.map(([key, words]) => {
          const option = make("vscode-option");
          option.setAttribute("value", key);
          if (key === now) option.setAttribute("selected", "");
          option.textContent = words;
          return option;
        }),
      );
    fill();
    element.addEventListener("change", () => {
      if (element.value === now) return;
      now = element.value as T;
      onChange(now);
    });
    return {
      element,
      set(change) {
        if (change.value !== undefined) now = change.value;
        if (change.options) {
          all = change.options;
          fill();
        }
        if (element.value !== now) element.value = now;
        if (change.enabled !== undefined) element.disabled = !change.enabled;
      },
    };
  },

  check({ label, title, checked, onChange }: CheckSpec) {
    const element = make("vscode-checkbox");
    element.classList.add("check");
    element.title = title ?? "";
    element.textContent = label;
    let now = checked;
    element.checked = checked;
    element.addEventListener("change", () => {
      // Fires for changes by program too.
      if (element.checked === now) return;
      now = element.checked;
      onChange(now);
    });
    return {
      element,
      set(change) {
        if (change.checked !== undefined && change.checked !== now) element.checked = now = change.checked;
        if (change.enabled !== undefined) element.disabled = !change.enabled;
      },
    };
  },
};
