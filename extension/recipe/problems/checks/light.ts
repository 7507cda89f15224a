/** Checks the light: a falloff that a blank takes out already. */
import { type Checked, fields, stated } from "./check.ts";

/** Every scan is divided by its blank, which holds whatever falloff there is. */
export function checkLight({ root, report }: Checked): void {
  const shared = fields(root.light)?.blank;
  for (const { path, value } of stated(root, "light")) {
    const light = fields(value);
    if (fields(light?.lens)?.falloff === undefined || (light?.blank ?? shared) === undefined) continue;
    report(
      "without-effect",
      [...path, "lens", "falloff"],
      "The blank takes out all falloff of light and lens, so falloff has no effect. Remove it, or remove blank.",
      { part: "key", data: { key: "falloff" } },
    );
  }
}
