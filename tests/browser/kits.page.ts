/** Both sets of controls on one page. Driven by kits.test.ts. */
import { nativeKit } from "../../webview/ui/native.ts";
import { slider } from "../../webview/ui/slider.ts";
import { toolkitKit } from "../../webview/ui/toolkit.ts";
import type { Button, Check, Choice } from "../../webview/ui/kit.ts";

export interface Controls {
  button: Button;
  toggle: Button;
  choice: Choice<"a" | "b" | "c">;
  check: Check;
  events: string[];
}

declare global {
  interface Window {
    controls: Record<"native" | "toolkit", Controls>;
    slid: string[];
  }
}

const make = (name: "native" | "toolkit"): Controls => {
  const kit = { native: nativeKit, toolkit: toolkitKit }[name];
  const events: string[] = [];
  const button = kit.button({ label: "Go", title: "Go on", kind: "primary", onPress: () => events.push("go") });
  const toggle = kit.button({
    label: "Warn",
    title: "Show clipping",
    icon: "M0 0h16v16H0z",
    pressed: false,
    onPress: () => events.push("toggle"),
  });
  const choice = kit.choice<"a" | "b" | "c">({
    label: "Which",
    options: [
      ["a", "First"],
      ["b", "Second"],
    ],
    value: "a",
    onChange: (v) => events.push(v),
  });
  const check = kit.check({ label: "Same", checked: false, onChange: (v) => events.push(String(v)) });
  const place = document.getElementById(name);
  place?.append(button.element, toggle.element, choice.element, check.element);
  return { button, toggle, choice, check, events };
};
window.controls = { native: make("native"), toolkit: make("toolkit") };

window.slid = [];
const made = slider({
  label: "Exposure",
  unit: "stops",
  from: -4,
  to: 4,
  min: -10,
  max: 10,
  step: 0.1,
  decimals: 1,
  value: 0,
  onInput: (v) => window.slid.push(`~${v}`),
  onCommit: (v) => window.slid.push(`=${v}`),
});
document.body.append(made.element);
