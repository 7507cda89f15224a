/** The shapes that stand for verdicts: each differs in outline, so that nothing depends on colour. */
import type { StandEntry } from "../../extension/messages.ts";
import { svg } from "../dom.ts";
import { t } from "../translate.ts";

type Verdict = StandEntry["verdict"];

/** A ring with a tick, a triangle with a bar, a filled square with a cross; 24 × 24. */
export function markOf(verdict: Verdict): SVGSVGElement {
  const mark = svg("svg", { viewBox: "0 0 24 24", "aria-hidden": "true", class: `mark ${verdict}` });
  const line = (d: string): SVGPathElement => svg("path", { d, class: "line" });
  if (verdict === "good")
    mark.append(svg("circle", { cx: 12, cy: 12, r: 10, class: "outline" }), line("M7 12.5 10.5 16 17 8.5"));
  else if (verdict === "look")
    mark.append(svg("path", { d: "M12 2.5 22.5 21.5 1.5 21.5Z", class: "outline" }), line("M12 9.5V15M12 17.6V18.8"));
  else mark.append(svg("path", { d: "M2 2H22V22H2Z", class: "filled" }), line("M7.5 7.5 16.5 16.5M16.5 7.5 7.5 16.5"));
  return mark;
}

export function wordOf(verdict: Verdict): string {
  return { good: t("good"), look: t("look"), again: t("again") }[verdict];
}
