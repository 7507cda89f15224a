/** Nobody needs a pointer: every stop of the Tab key has a name and can be seen, in a narrow panel as in a wide one. */
import { describe, expect, it } from "vitest";
import { hasChromium } from "./chromium.ts";
import { rollText } from "./open-panel.ts";
import { usePanel } from "./panel-driver.ts";

interface Stop {
  readonly what: string;
  readonly name: string;
  readonly seen: boolean;
}

describe.skipIf(!hasChromium)("the panel's reach", () => {
  const panel = usePanel();

  /** What has the focus, what it is called, and whether it lies within the page and under nothing else. */
  const stop = (): Promise<Stop | undefined> =>
    panel.page.evaluate(() => {
      const { activeElement: at } = document;
      if (!at || at === document.body) return undefined;
      const { left, top, width, height } = at.getBoundingClientRect();
      const over = document.elementFromPoint(left + width / 2, top + height / 2);
      const label = at instanceof HTMLInputElement ? at.labels?.[0]?.textContent : undefined;
      return {
        what: `${at.tagName.toLowerCase()} at ${Math.round(left)}, ${Math.round(top)}`,
        name: (at.getAttribute("aria-label") ?? label ?? at.textContent ?? "").trim(),
        seen:
          width > 0 && left >= 0 && left + width <= innerWidth && !!over && (at.contains(over) || over.contains(at)),
      };
    });

  it.each([
    ["dark", 320],
    ["light", 1000],
    ["contrast", 420],
  ] as const)("goes over everything by Tab, in %s, %i pixels wide", async (theme, width) => {
    const own = "\n    spots: [[0.3, 0.3, 0.004]]\n    positive: { curve: [[25, 23], [75, 78]] }";
    const text = rollText(4).replace(/(H0001\.dng.*\n.*)/, `$1${own}`);
    await panel.start({ theme, viewport: { width, height: 800 }, text });
    await panel.ui({ compare: "wipe", pins: { "01": [[0.4, 0.4]] } });
    await panel.settle();
    const stops: Stop[] = [];
    for (let k = 0; k < 150; k++) {
      await panel.page.keyboard.press("Tab");
      const next = await stop();
      if (!next) break;
      stops.push(next);
    }
    expect(stops.filter(({ name, seen }) => name === "" || !seen)).toEqual([]);
    const names = stops.map(({ name }) => name);
    // Controls of every part, from the bar to the strip: nothing was left out by the way.
    for (const wanted of ["Picture of frame 01", "Place of the wipe, percent", "Size of the values", "Exposure, EV"])
      expect(names).toContain(wanted);
    for (const wanted of [/^Neutral:/, /^Point 2, L\* out$/, /^Read:/, /^Crop:/, /^Remove spot/, /^Remove Pin 1/])
      expect(names.some((name) => wanted.test(name))).toBe(true);
    expect(names.at(-1)).toMatch(/^Frame 01/);
    expect(stops.length).toBeLessThan(100);
    // The bar is one stop: arrow keys go through its controls.
    await panel.page.locator(".toolbar vscode-button[tabindex='0']").focus();
    const bar = new Set<string>();
    for (let k = 0; k < 24; k++) {
      bar.add((await stop())?.name ?? "");
      await panel.page.keyboard.press("ArrowRight");
    }
    for (const wanted of ["Print", "Density", "200 %", "More for this frame", "Keys of the preview (?)"])
      expect(bar).toContain(wanted);
    // Nothing hangs out of the page to the right.
    const wide = await panel.page.evaluate(() =>
      [...document.querySelectorAll("#panel *")]
        .filter((e) => !e.closest(".strip, .stage") && e.getBoundingClientRect().right > innerWidth + 1)
        .map((e) => `${e.tagName} ${e.textContent}`),
    );
    expect(wide).toEqual([]);
  });
});
