/** Areas of local exposure in a real browser: drawn, dragged and moved with keys, each gesture one edit and one undo. */
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import type { StatedArea } from "../../extension/engine/local/stated.ts";
import { hasChromium } from "./chromium.ts";
import { rollText } from "./open-panel.ts";
import { usePanel } from "./panel-driver.ts";

/** As long as a loaded machine may take until something is there. */
const LOADED = { timeout: 20_000 };

const AREA = "{ id: a1, name: face, oval: [0.5, 0.5, 0.1, 0.1], exposure: 0.4 }";
const WITH_OVAL = rollText(3).replace("height: 0.9 }", `height: 0.9 }\n    positive:\n      local:\n        - ${AREA}`);

describe.skipIf(!hasChromium)("areas of local exposure", () => {
  const panel = usePanel();
  const { start, text, steps, screenAt, drag } = panel;
  const button = (words: string) => panel.page.locator(`[data-section=local] vscode-button[title^="${words}"]`);
  const handle = (key: string) => panel.page.locator(`.area-handle[data-handle="${key}"]`);
  const press = (key: string) => panel.page.keyboard.press(key);
  /** What the recipe states of frame 01's areas. */
  const areas = async (): Promise<readonly StatedArea[]> => parse(await text()).frames["01"].positive?.local ?? [];
  /** Until frame 01 has areas that match, and the panel shows the recipe itself. */
  async function expectAreas(wanted: readonly object[]): Promise<void> {
    await expect.poll(areas, LOADED).toMatchObject(wanted);
    await panel.page.waitForFunction(() => window.panel.session.store.get().draft === undefined);
  }
  /** Keys pressed at once, so that a slow machine makes no pause between them. */
  const pressAtOnce = (keys: readonly string[]) =>
    panel.page.evaluate((all) => {
      for (const key of all)
        document.activeElement?.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true, cancelable: true }));
    }, keys);
  const focused = () => panel.page.evaluate(() => document.activeElement?.getAttribute("data-handle"));

  it("are drawn over the picture, burn it there, and are undone in one step", async () => {
    await start();
    const [inside, outside] = [await screenAt([0.5, 0.2]), await screenAt([0.5, 0.85])];
    await button("Draw a gradient").click();
    await drag([0.5, 0.3], [0.5, 0.6]);
    // 0.3 and 0.6 of the scan lie at 5/18 and 11/18 of the crop's 0.05 … 0.95.
    const place = (y: number) => [expect.closeTo(0.5, 2), expect.closeTo(y, 2)];
    await expectAreas([{ id: "a1", line: [place(5 / 18), place(11 / 18)], exposure: -0.5 }]);
    expect(await steps()).toBe(1);
    // The mask lies over the picture: without it the print itself is seen.
    await panel.page.locator("[data-section=local] .mask-choice input").uncheck();
    await expect.poll(async () => (await screenAt([0.5, 0.2]))[1], LOADED).toBeLessThan(inside[1] - 8);
    expect(await screenAt([0.5, 0.85])).toEqual(outside);
    await press("Control+z");
    await expect.poll(text, LOADED).toBe(rollText(3));
    await expect.poll(() => screenAt([0.5, 0.2]), LOADED).toEqual(inside);
  });

  it("are dragged by their handles and moved with arrow keys: one edit a gesture, one undo", async () => {
    await start({ text: WITH_OVAL });
    await button("Show the areas").click();
    await drag([0.5, 0.5], [0.59, 0.5]);
    await expectAreas([{ oval: [expect.closeTo(0.6, 2), 0.5, 0.1, 0.1] }]);
    expect(await steps()).toBe(1);
    expect(await handle("all").getAttribute("aria-label")).toBe("Middle of area 1, face, at 60, 50 %");
    await handle("all").focus();
    await pressAtOnce(["ArrowDown", "ArrowDown", "ArrowDown", "ArrowDown"]);
    expect(await focused()).toBe("all");
    await expectAreas([{ oval: [expect.closeTo(0.6, 2), 0.54, 0.1, 0.1] }]);
    expect(await steps()).toBe(2);
    // Undoing at once reverts what was just pressed, which is written first.
    await pressAtOnce(["ArrowDown", "ArrowDown"]);
    await press("Control+z");
    await expectAreas([{ oval: [expect.closeTo(0.6, 2), 0.54, 0.1, 0.1] }]);
    const exposure = panel.page.locator("[data-section=local] .slider", { hasText: "Exposure of the area" });
    await exposure.locator("input[type=number]").fill("-0.8");
    await press("Enter");
    await expectAreas([{ exposure: -0.8 }]);
  });

  it("are missed aloud where arrow keys would move one", async () => {
    await start();
    const announced = () => panel.page.locator(".live[role=status]").textContent();
    await button("Show the areas").focus();
    await press("Enter");
    await expect.poll(announced, LOADED).toBe("There is no area to move yet. Draw one first.");
    await panel.page.evaluate(() => window.panel.session.announce("Something else."));
    await expect.poll(announced, LOADED).toBe("Something else.");
    await panel.page.locator(".stage").focus();
    await press("ArrowDown");
    await expect.poll(announced, LOADED).toBe("There is no area to move yet. Draw one first.");
    expect(await steps()).toBe(0);
    expect(await text()).toBe(rollText(3));
  });

  it("are drawn, resized, moved and removed with the keyboard alone", async () => {
    await start();
    await button("Draw four corners").focus();
    await press("Enter");
    await panel.page.locator(".stage").focus();
    await press("ArrowLeft");
    await press("Enter");
    await pressAtOnce([...Array<string>(6).fill("ArrowRight"), ...Array<string>(6).fill("ArrowDown")]);
    expect(await steps()).toBe(0);
    await press("Enter");
    await expect.poll(async () => (await areas())[0]?.polygon?.length, LOADED).toBe(4);
    expect(await steps()).toBe(1);
    const [[x, y], , [x2, y2]] = (await areas())[0].polygon!;
    expect([x2 - x, y2 - y].every((side) => side > 0.02)).toBe(true);
    // The handles come next in the order of Tab: the middle, then the corners.
    await press("Tab");
    await expect.poll(focused).toBe("all");
    await press("Tab");
    await expect.poll(focused).toBe("0");
    await pressAtOnce(["ArrowUp", "ArrowUp"]);
    await expect.poll(async () => (await areas())[0].polygon![0][1], LOADED).toBeCloseTo(y - 0.02, 3);
    expect((await areas())[0].polygon![2]).toEqual([x2, y2]);
    expect(await steps()).toBe(2);
    await press("Shift+Tab");
    await pressAtOnce(["ArrowRight"]);
    await expect.poll(async () => (await areas())[0].polygon![2][0], LOADED).toBeGreaterThan(x2);
    expect(await steps()).toBe(3);
    await press("Delete");
    await expectAreas([]);
    expect(await steps()).toBe(4);
    await expect.poll(() => panel.page.evaluate(() => document.activeElement?.className)).toBe("stage");
    await press("Control+z");
    await expect.poll(async () => (await areas()).length, LOADED).toBe(1);
  });

  it("are removed in the list, and a name that is typed stays with its frame", async () => {
    await start({ text: WITH_OVAL });
    await button("Show the areas").focus();
    await press("Enter");
    const name = panel.page.locator("[data-section=local] .area-name input");
    await name.fill("boat");
    await press("PageDown");
    await expectAreas([{ name: "boat" }]);
    expect(parse(await text()).frames["02"].positive).toBeUndefined();
    await press("PageUp");
    await panel.page.locator("[data-section=local] button", { hasText: "Remove" }).focus();
    await press("Enter");
    await expectAreas([]);
    expect(await panel.page.evaluate(() => document.activeElement?.getAttribute("title"))).toMatch(/^Draw a gradient/);
  });
});
