/** Spots that a survey proposes: the list, the rings in the picture, and what accepting makes of the text. */
import { describe, expect, it } from "vitest";
import { hasChromium } from "./chromium.ts";
import { rollText } from "./open-panel.ts";
import { usePanel } from "./panel-driver.ts";

describe.skipIf(!hasChromium)("proposals of the survey", () => {
  const panel = usePanel();
  const { start, settle, text, steps, clientOf } = panel;
  const section = () => panel.page.locator("[data-section=proposals]");
  const rows = () => section().locator(":scope > ul > li");
  const over = () => section().locator(".over");
  const press = (name: string, row = 0) => rows().nth(row).getByRole("button", { name }).click();
  const rings = () =>
    panel.page.locator(".proposal").evaluateAll((all) =>
      all.map((one) => {
        const box = one.getBoundingClientRect();
        return { x: box.x + box.width / 2, y: box.y + box.height / 2, chosen: one.classList.contains("chosen") };
      }),
    );
  /** The roll with its proposals. */
  const surveyed = async (): Promise<void> => {
    await start();
    await section().getByRole("button", { name: "Survey the scans" }).click();
    await expect.poll(() => rows().count()).toBe(3);
  };

  it("are none before a survey, which the panel offers", async () => {
    await start();
    await expect.poll(() => section().locator(".hint").innerText()).toContain("has not been surveyed");
    expect(await rows().count()).toBe(0);
    expect(await section().getByRole("button", { name: "Accept all" }).isVisible()).toBe(false);
    await section().getByRole("button", { name: "Survey the scans" }).click();
    await expect
      .poll(() => titlesOf(rows()))
      .toEqual([
        expect.stringContaining("Film: 30.0, 25.0"),
        expect.stringContaining("Film: 60.0, 40.0"),
        expect.stringContaining("Sensor or lens: 45.0, 35.0"),
      ]);
    expect(await text()).toBe(rollText(3));
  });

  it("are ringed in the picture while the list is in use, the one under the pointer more strongly", async () => {
    await surveyed();
    await panel.page.mouse.move(5, 5);
    await panel.page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
    await expect.poll(async () => (await rings()).length).toBe(0);
    await rows().nth(1).hover();
    await expect.poll(async () => (await rings()).map(({ chosen }) => chosen)).toEqual([false, true, false]);
    // Heights count in widths: the wedge's scan is three to two.
    const [, second] = await rings();
    const { scanWidth, scanHeight } = await panel.page.evaluate(() => window.panel.picture.layout()!.source);
    const place = await clientOf([0.6, (0.4 * scanWidth) / scanHeight]);
    expect(Math.hypot(second!.x - place.x, second!.y - place.y)).toBeLessThan(1.5);
  });

  it("are accepted one by one, each one step of undo, and are gone from the list", async () => {
    await surveyed();
    await press("Accept", 1);
    await expect.poll(() => rows().count()).toBe(2);
    expect(await text()).toMatch(/"01":\n(?: {4}.*\n)* {4}spots: \[\[0\.6, 0\.4, 0\.006\]\]/);
    await press("Accept", 1);
    await expect.poll(() => rows().count()).toBe(1);
    expect(await text()).toMatch(
      /light:\n(?: {2}.*\n)* {2}spots: \[\[0\.45, 0\.35, 0\.005\]\]|light: \{.*spots: \[\[0\.45/,
    );
    expect(await steps()).toBe(2);
    await panel.page.keyboard.press("Control+z");
    await expect.poll(() => rows().count()).toBe(2);
  });

  it("are accepted all at once as one step, but for those that were dismissed", async () => {
    await surveyed();
    await press("Dismiss", 0);
    await expect.poll(() => rows().count()).toBe(2);
    expect(await steps()).toBe(0);
    await section().getByRole("button", { name: "Accept all" }).click();
    await expect.poll(() => section().locator(".hint").innerText()).toContain("No spots are proposed");
    expect(await steps()).toBe(1);
    const written = await text();
    expect(written).toContain("[0.6, 0.4, 0.006]");
    expect(written).toContain("[0.45, 0.35, 0.005]");
    expect(written).not.toContain("0.25, 0.004");
  });

  /** What the rows of a list say where they lie: the pictures themselves need no words. */
  const titlesOf = (list: ReturnType<typeof rows>): Promise<(string | null)[]> =>
    list.evaluateAll((all) => all.map((row) => row.getAttribute("title")));

  it("that were dismissed are listed apart, ringed while the list is at them, and restored", async () => {
    await surveyed();
    expect(await over().isVisible()).toBe(false);
    await press("Dismiss", 0);
    await press("Dismiss", 1);
    await expect.poll(() => over().locator("summary").innerText()).toBe("Dismissed: 2");
    await over().locator("summary").click();
    await expect
      .poll(() => titlesOf(over().locator("li")))
      .toEqual([expect.stringContaining("Film: 30.0, 25.0"), expect.stringContaining("Sensor or lens: 45.0, 35.0")]);
    await over().locator("li").nth(1).hover();
    await expect.poll(async () => (await rings()).map(({ chosen }) => chosen)).toEqual([false, true]);
    await over().locator("li").first().getByRole("button", { name: "Restore" }).click();
    await expect.poll(() => rows().count()).toBe(2);
    expect(await over().locator("li").count()).toBe(1);
    await over().getByRole("button", { name: "Restore" }).click();
    await expect.poll(() => rows().count()).toBe(3);
    expect(await over().isVisible()).toBe(false);
    expect(await text()).toBe(rollText(3));
  });

  it("stay dismissed in another frame only where they lie on sensor or lens", async () => {
    await surveyed();
    await press("Dismiss", 2);
    await expect.poll(() => rows().count()).toBe(2);
    await press("Dismiss", 0);
    await expect.poll(() => rows().count()).toBe(1);
    await panel.page.evaluate(() => window.panel.session.select("02"));
    await expect
      .poll(() => titlesOf(rows()))
      .toEqual([expect.stringContaining("Film: 30.0"), expect.stringContaining("Film: 60.0")]);
    expect(await over().locator("summary").innerText()).toBe("Dismissed: 1");
  });

  it("can be worked through with the keyboard alone", async () => {
    await surveyed();
    await rows().first().getByRole("button", { name: "Accept" }).focus();
    await panel.page.keyboard.press("ArrowDown");
    await expect.poll(async () => (await rings()).map(({ chosen }) => chosen)).toEqual([false, true, false]);
    await panel.page.keyboard.press("Enter");
    await expect.poll(() => rows().count()).toBe(2);
    await settle();
    const focused = await panel.page.evaluate(() => document.activeElement?.getAttribute("aria-label"));
    expect(focused).toBe("Accept. Sensor or lens: 45.0, 35.0 % of the width");
    // Left and right go through the row's buttons: the list is one stop of the Tab key.
    await panel.page.keyboard.press("ArrowRight");
    await panel.page.keyboard.press("Enter");
    await expect.poll(() => rows().count()).toBe(1);
    expect(await text()).toContain("[0.6, 0.4, 0.006]");
    expect(await text()).not.toContain("[0.45, 0.35");
  });
});
