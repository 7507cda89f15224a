/** The panel in a real browser: what keys, menus and quick clicks do, and what stays in its place meanwhile. */
import { describe, expect, it } from "vitest";
import { hasChromium } from "./chromium.ts";
import { rollText } from "./open-panel.ts";
import { usePanel } from "./panel-driver.ts";
import { patchAt, patchDensity, BASE } from "./wedge.ts";

/** Pictures are made in the page: time enough for that on a machine that does other things too. */
const PATIENT = { timeout: 60_000 };

describe.skipIf(!hasChromium)("the panel", () => {
  const panel = usePanel();
  const { start, settle, text, steps, ui, clientOf, drag } = panel;
  const frame = () => panel.page.locator(".frame-name").textContent();
  const range = (key: string) => panel.page.locator(`[data-control=${key}] input[type=range]:visible`);
  const number = (key: string) => panel.page.locator(`[data-control=${key}] input[type=number]:visible`);
  const stageBox = () => panel.page.locator(".stage").boundingBox();

  it("steps to the next frame from a slider and from a field, and writes what was moved into the first one", async () => {
    await start();
    await range("contrast").focus();
    await panel.page.keyboard.press("ArrowRight");
    await panel.page.keyboard.press("PageDown");
    await expect.poll(frame).toBe("02");
    await expect.poll(text).toMatch(/"01":\n.*\n.*\n {4}positive: \{ contrast: 1\.51 \}/);
    await number("exposure").fill("0.9");
    await panel.page.keyboard.press("PageDown");
    await expect.poll(frame).toBe("03");
    await expect.poll(text).toMatch(/"02":\n.*\n.*\n {4}positive: \{ exposure: 0\.9 \}/);
    await panel.page.keyboard.press("PageUp");
    await expect.poll(frame).toBe("02");
    // The focus is where it was, so that the same value of each frame can be set in one go.
    expect(await panel.page.evaluate(() => document.activeElement?.tagName)).toBe("INPUT");
    expect(await steps()).toBe(2);
  });

  /** Presses keys in one go, however busy the machine is: with pauses between them they would be several gestures. */
  const press = (...keys: readonly string[]): Promise<void> =>
    panel.page.evaluate((all) => {
      for (const name of all) {
        const shiftKey = name.startsWith("Shift+");
        const key = name.replace("Shift+", "");
        document.activeElement?.dispatchEvent(new KeyboardEvent("keydown", { key, shiftKey, bubbles: true }));
      }
    }, keys);

  it("nudges exposure and filtration by one key each: a run of presses is one edit", async () => {
    await start();
    await panel.page.locator(".stage").focus();
    await press("e", "e", "e", "Shift+D");
    expect(await steps()).toBe(0);
    await expect.poll(steps, { timeout: 3000 }).toBe(1);
    expect(await text()).toContain("positive: { exposure: 0.48 }");
    await press("u", "l");
    await expect.poll(steps, { timeout: 3000 }).toBe(3);
    expect(await text()).toContain("filtration: { magenta: 2, yellow: -2 }");
    // What is under way belongs to the frame that it was begun on.
    await press("e", "PageDown");
    await expect.poll(steps).toBe(4);
    expect(await text()).toMatch(/"01":[^"]*exposure: 0\.58/);
    expect(await text()).toMatch(/"02":\n.*\n.*\n {2}"03"/);
  });

  it("lists the keys, and the keys of values among them", async () => {
    await start();
    await range("toe").focus();
    await panel.page.keyboard.press("?");
    const help = panel.page.locator("dialog.help");
    await help.waitFor({ state: "visible" });
    const rows = await help.locator("tr").allInnerTexts();
    expect(rows.some((row) => /^E\s*D\s+Exposure: 0\.1 EV more, less/.test(row))).toBe(true);
    expect(rows.some((row) => /^Page Up\s*Page Down/.test(row))).toBe(true);
    await panel.page.keyboard.press("?");
    await help.waitFor({ state: "hidden" });
    expect(await steps()).toBe(0);
  });

  it("loses no click on specks at five a second, while each edit and picture takes longer", async () => {
    await start({ slow: 300 });
    await ui({ tool: "spots" });
    await settle();
    const before = await stageBox();
    const places = Array.from({ length: 8 }, (_, i) => [0.15 + 0.09 * i, 0.3 + 0.05 * (i % 3)] as const);
    for (const place of places) {
      const { x, y } = await clientOf(place);
      await panel.page.mouse.click(x, y);
      await panel.page.waitForTimeout(200);
    }
    // Each is shown at once, and none has moved the picture.
    expect(await stageBox()).toEqual(before);
    await expect.poll(steps, { timeout: 60_000 }).toBe(8);
    const spots = [...(await text()).matchAll(/\[(0\.\d+), (0\.\d+), 0\.003\]/g)].map(([, x]) => Number(x));
    places.forEach(([x], i) => expect(Math.abs(spots[i]! - x)).toBeLessThan(0.004));
    await expect.poll(() => panel.page.locator(".pending").count(), PATIENT).toBe(0);
    // Each is one step of undo.
    await panel.page.keyboard.press("Control+z");
    await expect.poll(async () => [...(await text()).matchAll(/0\.003\]/g)].length, PATIENT).toBe(7);
  });

  it("lays notices over the picture, which keeps its size", async () => {
    await start();
    const before = await stageBox();
    await panel.page.evaluate(() => window.fake.type(window.fake.text().replace("exposure: 0.2", "exposure: bright")));
    await panel.page.locator(".notices .error").waitFor();
    expect(await stageBox()).toEqual(before);
    await panel.page.locator(".notices vscode-button").click();
    expect(await panel.page.locator(".notices").isVisible()).toBe(false);
  });

  it("moves the whole roll's exposure, with frames that have their own, and counts them", async () => {
    const own = rollText(3).replace(/(H0002\.dng\n.*\n)/, "$1    positive: { exposure: -1 }\n");
    await start({ text: own });
    await panel.page.locator("input[name=scope][value=roll]").check();
    await settle();
    await expect
      .poll(() => panel.page.locator("[data-section=exposure] p.hint").innerText())
      .toBe("Moves 3 frames; 1 of them by the same amount from an exposure of their own.");
    await panel.page.keyboard.press("PageDown");
    await expect.poll(frame).toBe("02");
    await number("exposure").fill("0.7");
    await number("exposure").press("Enter");
    await expect.poll(steps).toBe(1);
    expect(await text()).toContain("  exposure: 0.7 # the whole roll is a little thin");
    expect(await text()).toContain("positive: { exposure: -0.5 }");
    await panel.page.keyboard.press("Escape");
    await panel.page.locator(".stage").focus();
    await panel.page.keyboard.press("Control+z");
    await expect.poll(text).toBe(own);
  });

  it("asks before it writes a base that was read over the picture", async () => {
    const [r, g, b] = patchDensity(4, 1);
    await start({ base: [BASE[0] + r, BASE[1] + g, BASE[2] + b] });
    await ui({ tool: "base" });
    await settle();
    await drag(patchAt(4, 1), [patchAt(4, 1)[0] + 0.03, patchAt(4, 1)[1] + 0.03]);
    const question = panel.page.locator(".question");
    await expect
      .poll(() => question.innerText())
      .toMatch(/is not written yet: .*from the base that is stated.*film that is clearer/s);
    expect(await steps()).toBe(0);
    await question.locator("vscode-button", { hasText: "Leave it" }).click();
    expect(await question.isVisible()).toBe(false);
    expect(await steps()).toBe(0);
    await drag(patchAt(4, 1), [patchAt(4, 1)[0] + 0.03, patchAt(4, 1)[1] + 0.03]);
    await question.locator("vscode-button", { hasText: "Write it" }).click();
    await expect.poll(steps).toBe(1);
  });

  it("has a menu of its own over the picture, for pointer and keyboard", async () => {
    await start();
    const { x, y } = await clientOf(patchAt(4, 1));
    await panel.page.mouse.click(x, y, { button: "right" });
    const menu = panel.page.getByRole("menu");
    await menu.waitFor();
    expect((await menu.getByRole("menuitem").allInnerTexts())[0]).toBe("Make this place neutral");
    await panel.page.keyboard.press("Enter");
    await expect.poll(text).toMatch(/filtration: \{ magenta/);
    await panel.page.locator(".stage").focus();
    await panel.page.keyboard.press("Shift+F10");
    await menu.waitFor();
    await panel.page.keyboard.press("End");
    expect(await panel.page.evaluate(() => document.activeElement?.textContent)).toBe("Show in the text");
    await panel.page.keyboard.press("Escape");
    expect(await menu.count()).toBe(0);
    expect(await panel.page.evaluate(() => document.activeElement?.className)).toBe("stage");
  });

  it("shows a neighbour's picture at once, because it was fetched ahead", async () => {
    await start({ slow: 250, text: rollText(5) });
    await expect.poll(() => panel.page.evaluate(() => window.fake.fromPictures.picture)).toBe(3);
    await panel.page.waitForTimeout(400);
    for (const id of ["02", "03"]) {
      const [shown, current] = await panel.page.evaluate(() => {
        window.panel.session.step(1);
        const { ui: now, current: is } = window.panel.session.store.get();
        return [now.frame, is] as const;
      });
      expect([shown, current]).toEqual([id, true]);
      await panel.page.waitForTimeout(700);
    }
  });

  it("shows every speck as a small picture in one sheet, accepted and dismissed by keys", async () => {
    await start();
    await panel.page.evaluate(() => window.panel.session.client.request("survey", {}));
    await panel.page.keyboard.press("s");
    const tiles = panel.page.locator(".speck-tile");
    await expect.poll(() => tiles.count(), PATIENT).toBe(3);
    await expect.poll(() => panel.page.locator(".speck-tile canvas.drawn").count(), PATIENT).toBe(3);
    await panel.page.keyboard.press("Enter");
    await expect.poll(() => tiles.count(), PATIENT).toBe(2);
    await panel.page.keyboard.press("Delete");
    await expect.poll(() => tiles.count(), PATIENT).toBe(1);
    await expect.poll(steps, PATIENT).toBe(1);
    expect(await text()).toContain("spots: [[0.3, 0.25, 0.004]]");
    await panel.page.locator(".speck-sheet .check").click();
    // Frames 02 and 03 have two each of their own, and the sensor's dust is shown once.
    await expect.poll(() => tiles.count(), PATIENT).toBe(5);
    await panel.page.locator(".speck-sheet vscode-button", { hasText: "Accept the rest" }).click();
    await expect.poll(steps, PATIENT).toBe(4);
    await panel.page.keyboard.press("Escape");
    await panel.page.locator(".speck-sheet").waitFor({ state: "hidden" });
  });

  it.each([
    [1280, 720, 616, 620],
    [1280, 720, 700, 620],
    [1500, 950, 1100, 860],
  ] as const)(
    "leaves the picture half of the panel in a window of %i × %i, and the bar one row",
    async (_w, _h, width, height) => {
      await start({ viewport: { width, height } });
      const part = async (): Promise<number> => {
        const box = (await stageBox())!;
        return (box.width * box.height) / (width * height);
      };
      expect(await part()).toBeGreaterThanOrEqual(0.5);
      // However far the border is dragged.
      await panel.page.locator(".split").focus();
      for (let k = 0; k < 40; k++) await panel.page.keyboard.press(width <= 820 ? "ArrowUp" : "ArrowLeft");
      await settle();
      expect(await part()).toBeGreaterThanOrEqual(0.495);
      const rows = async (): Promise<number> => (await panel.page.locator(".toolbar").boundingBox())!.height / 36;
      const fits = () => panel.page.evaluate(() => document.querySelector(".toolbar")!.scrollWidth <= innerWidth);
      await ui({ compare: "wipe" });
      await settle();
      // From 700 pixels on the bar has one row, whatever it shows.
      expect((await rows()) < 1.2 || width < 700).toBe(true);
      expect(await fits()).toBe(true);
      await ui({ foldedStrip: true });
      await settle();
      expect(await part()).toBeGreaterThan(0.5);
      expect(await panel.page.locator(".tile").first().isVisible()).toBe(false);
    },
  );

  it("keeps each section in its column while another one opens", async () => {
    await start({ viewport: { width: 700, height: 800 } });
    const lefts = () =>
      panel.page.evaluate(() => [...document.querySelectorAll(".section")].map((s) => s.getBoundingClientRect().left));
    const before = await lefts();
    expect(new Set(before).size).toBe(2);
    await panel.page.locator("[data-section=curve] summary").click();
    await settle();
    expect(await lefts()).toEqual(before);
  });
});
