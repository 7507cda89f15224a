/** The panel in a real browser with a host that is not there: gestures, and what they make of the recipe's text. */
import { describe, expect, it } from "vitest";
import { hasChromium } from "./chromium.ts";
import { rollText } from "./open-panel.ts";
import { usePanel } from "./panel-driver.ts";
import { BASE, patchAt } from "./wedge.ts";

describe.skipIf(!hasChromium)("the panel", () => {
  const panel = usePanel();
  const { start, settle, text, steps, ui, screenAt, drag, stroke, choose, click } = panel;

  it("drags exposure: pixels at once, one edit when let go, one undo for both", async () => {
    await start();
    const place = patchAt(3, 0);
    const before = await screenAt(place);
    const range = panel.page.locator("[data-control=exposure] input[type=range]");
    const box = await range.boundingBox();
    if (!box) throw new Error("no slider");
    await panel.page.mouse.move(box.x + box.width * 0.525, box.y + box.height / 2);
    await panel.page.mouse.down();
    await panel.page.mouse.move(box.x + box.width * 0.65, box.y + box.height / 2, { steps: 8 });
    await settle();
    const during = await screenAt(place);
    expect(during[1]).toBeGreaterThan(before[1] + 15);
    expect(await steps()).toBe(0);
    await panel.page.mouse.up();
    await settle();
    expect(await steps()).toBe(1);
    const written = await text();
    expect(written).toMatch(/"01":\n {4}scan: H0001\.dng\n {4}area: .*\n {4}positive: \{ exposure: 1\.\d+ \}/);
    expect(written).toContain("exposure: 0.2 # the whole roll is a little thin");
    expect(await screenAt(place)).toEqual(during);
    await panel.page.keyboard.press("Control+z");
    await settle();
    expect(await text()).toBe(rollText(3));
    expect(await screenAt(place)).toEqual(before);
    await panel.page.keyboard.press("Control+y");
    await settle();
    expect(await text()).toBe(written);
  });

  it("says where a value comes from, resets it, and writes to the roll when told to", async () => {
    await start();
    const row = panel.page.locator(".row", { has: panel.page.locator("[data-control=exposure]") });
    await expect.poll(() => row.locator(".level").textContent()).toBe("roll");
    const number = row.locator("input[type=number]");
    await number.fill("0.5");
    await number.press("Enter");
    await settle();
    await expect.poll(() => row.locator(".level").textContent()).toBe("frame");
    expect(await text()).toContain("positive: { exposure: 0.5 }");
    await row.locator("vscode-button[title^='Reset Exposure to +0.20']").click();
    await settle();
    expect(await text()).toBe(rollText(3));
    await panel.page.locator("input[name=scope][value=roll]").check();
    await number.fill("0.7");
    await number.press("Enter");
    await settle();
    expect(await text()).toContain("  exposure: 0.7 # the whole roll is a little thin");
    expect(await steps()).toBe(3);
  });

  it("runs of arrow keys on a slider are one gesture", async () => {
    await start();
    await panel.page.locator("[data-control=contrast] input[type=range]").focus();
    for (let i = 0; i < 5; i++) await panel.page.keyboard.press("ArrowRight");
    expect(await steps()).toBe(0);
    await expect.poll(steps, { timeout: 3000 }).toBe(1);
    expect(await text()).toContain("contrast: 1.55");
  });

  it("picks a neutral: the patch becomes grey, magenta and yellow are written", async () => {
    await start();
    await panel.page.locator("vscode-button[title^='Click on something that was grey']").click();
    await click(patchAt(4, 1));
    const written = await text();
    expect(written).toMatch(/positive: \{ filtration: \{ magenta: -?[\d.]+, yellow: -?[\d.]+ \} \}/);
    expect(await steps()).toBe(1);
    const [r, g, b] = await screenAt(patchAt(4, 1));
    expect(Math.max(r, g, b) - Math.min(r, g, b)).toBeLessThanOrEqual(2);
    expect(await panel.page.evaluate(() => window.panel.session.store.get().ui.tool)).toBe("look");
  });

  it("picks a mid-grey: the patch comes to 18 %, which sRGB encodes as 118 (IEC 61966-2-1)", async () => {
    await start();
    await panel.page.locator("vscode-button[title^='Click on something that was grey']").click();
    await click(patchAt(3, 1));
    await panel.page.locator("vscode-button[title^='Click on something of medium brightness']").click();
    await click(patchAt(3, 1));
    expect(await text()).toMatch(/exposure: -?\d\.\d+, filtration/);
    const [, g] = await screenAt(patchAt(3, 1));
    // 0.18 encodes to 117.7; L* 49.5 is the same light.
    expect(Math.abs(g - 118)).toBeLessThanOrEqual(1);
  });

  it("reads the base by dragging over the rebate, for the roll", async () => {
    await start();
    await panel.page.locator("vscode-button[title^='Draw a rectangle over the rebate']").click();
    await settle();
    await drag([0.3, 0.01], [0.6, 0.04]);
    await expect.poll(steps).toBe(1);
    const written = await text();
    expect(written).toContain(`density: [${BASE.join(", ")}]`);
    expect(written).toMatch(
      /read: \{ scan: H0001\.dng, area: \[0\.3\d*, 0\.0\d+, 0\.3\d*, 0\.0\d+\], scatter: \[0\.004, 0\.005, 0\.006\] \}/,
    );
  });

  it("crops: a dragged corner is one edit, and the same goes to the following frames", async () => {
    await start();
    await panel.page.locator("vscode-button[title^='Crop over the whole scan']").click();
    await settle();
    await drag([0.05, 0.05], [0.15, 0.2]);
    expect(await steps()).toBe(1);
    const area = /"01":\n {4}scan: H0001\.dng\n {4}area: (\{.*\})/.exec(await text())?.[1] ?? "";
    const [left, top, width, height] = [...area.matchAll(/0\.\d+/g)].map((m) => Number(m[0]));
    expect(left).toBeCloseTo(0.15, 2);
    expect(top).toBeCloseTo(0.2, 2);
    expect(left + width).toBeCloseTo(0.95, 3);
    expect(top + height).toBeCloseTo(0.95, 3);
    await panel.page.getByText("Same for the following frames").click();
    await settle();
    expect((await text()).split(`area: ${area}`)).toHaveLength(4);
    expect(await steps()).toBe(2);
  });

  it("levels by a line that is drawn outside of the crop", async () => {
    await start();
    await ui({ tool: "crop" });
    await settle();
    // 3 % down over 60 % of a scan of 3 : 2.
    await drag([0.2, 0.01], [0.8, 0.04]);
    const tilt = Number(/tilt: (-?[\d.]+)/.exec(await text())?.[1]);
    expect(tilt).toBeCloseTo((Math.atan2(0.03 * 2000, 0.6 * 3000) * 180) / Math.PI, 0);
  });

  it("turns, mirrors, and takes both back", async () => {
    await start();
    await panel.page.locator("vscode-button[title^='Turn a quarter']").click();
    await settle();
    await panel.page.locator("vscode-button[title^='Swap left and right']").click();
    await settle();
    expect(await text()).toContain("    turn: 90\n    mirror: true\n");
    for (let i = 0; i < 3; i++) {
      await panel.page.locator("vscode-button[title^='Turn a quarter']").click();
      await settle();
    }
    await panel.page.locator("vscode-button[title^='Swap left and right']").click();
    await settle();
    expect(await text()).toBe(rollText(3));
  });

  it("adds a spot where one clicks and removes it again", async () => {
    await start();
    await panel.page.locator("vscode-button[title^='Click a speck']").click();
    await settle();
    await click([0.4, 0.3]);
    expect(await text()).toMatch(/spots: \[\[0\.4\d*, 0\.2\d*, 0\.003\]\]/);
    await click([0.4, 0.3]);
    expect(await text()).toBe(rollText(3));
    await drag([0.5, 0.5], [0.52, 0.5]);
    expect(Number(/spots: \[\[[\d.]+, [\d.]+, ([\d.]+)\]\]/.exec(await text())?.[1])).toBeCloseTo(0.02, 2);
  });

  /** The line that the recipe has, in widths of the scan, and how broad it is. */
  async function writtenLine(): Promise<{ line: number[][]; width: number }> {
    const found = /spots: \[\{ line: (\[\[.*\]\]), width: ([\d.]+) \}\]/.exec(await text());
    if (!found) throw new Error(`no line in ${await text()}`);
    return { line: JSON.parse(found[1]) as number[][], width: Number(found[2]) };
  }
  const near = (line: number[][], course: readonly (readonly [number, number])[]): void => {
    expect(line).toHaveLength(course.length);
    line.forEach(([x, y], k) => {
      expect(Math.abs(x - course[k][0])).toBeLessThan(0.004);
      // y is counted in widths; the scan is 3 : 2.
      expect(Math.abs(y - course[k][1] / 1.5)).toBeLessThan(0.004);
    });
  };
  const drawLines = async (): Promise<void> => {
    await start();
    await panel.page.locator("vscode-button[title^='Click a speck']").click();
    await choose("New spots are", "line");
  };

  it("draws a hair in one stroke, as broad as chosen, shows its outline, and takes it away with a click", async () => {
    await drawLines();
    const width = panel.page.locator("input[aria-label='Width, %']");
    await width.fill("0.4");
    await width.press("Enter");
    await stroke([0.3, 0.3], [0.5, 0.3], [0.6, 0.6]);
    expect(await steps()).toBe(1);
    const { line, width: broad } = await writtenLine();
    near(line, [
      [0.3, 0.3],
      [0.5, 0.3],
      [0.6, 0.6],
    ]);
    expect(broad).toBe(0.004);
    await expect.poll(() => panel.page.locator("path.spot.film").count()).toBe(1);
    await panel.page.keyboard.press("Control+z");
    await settle();
    expect(await text()).toBe(rollText(3));
    await panel.page.keyboard.press("Control+y");
    await settle();
    await click([0.4, 0.3]);
    expect(await text()).toBe(rollText(3));
  });

  it("draws a scratch point by point: clicks, the last one twice", async () => {
    await drawLines();
    await click([0.2, 0.2]);
    await click([0.4, 0.25]);
    await click([0.7, 0.3]);
    expect(await steps()).toBe(0);
    await expect.poll(() => panel.page.locator("polyline.course").count()).toBe(1);
    await click([0.7, 0.3]);
    expect(await steps()).toBe(1);
    near((await writtenLine()).line, [
      [0.2, 0.2],
      [0.4, 0.25],
      [0.7, 0.3],
    ]);
    expect(await panel.page.locator("polyline.course").count()).toBe(0);
  });

  it("draws a line with the keyboard alone, reverts a point, and gives up with Escape", async () => {
    await drawLines();
    await panel.page.locator(".stage").focus();
    const press = async (key: string, times = 1): Promise<void> => {
      for (let k = 0; k < times; k++) await panel.page.keyboard.press(key);
      await settle();
    };
    await press("ArrowRight");
    await press("Enter");
    await press("ArrowRight", 6);
    await press("Enter");
    await press("ArrowDown", 6);
    await press("Enter");
    await press("Backspace");
    await press("ArrowUp", 12);
    await press("Enter");
    await press("Enter");
    expect(await steps()).toBe(1);
    const { line } = await writtenLine();
    expect(line).toHaveLength(3);
    expect(line[0][1]).toBeCloseTo(line[1][1], 4);
    expect(line[2][0]).toBeCloseTo(line[1][0], 4);
    expect(line[2][1]).toBeLessThan(line[1][1]);
    await press("ArrowRight");
    await press("Enter");
    await press("Escape");
    expect(await panel.page.locator("polyline.course").count()).toBe(0);
    expect(await steps()).toBe(1);
    expect(await panel.page.evaluate(() => window.panel.session.store.get().ui.tool)).toBe("spots");
    await press("Escape");
    expect(await panel.page.evaluate(() => window.panel.session.store.get().ui.tool)).toBe("look");
  });

  it("bends the curve by a point, moves it with the keyboard, and straightens it", async () => {
    await start();
    const curve = panel.page.locator("svg.curve");
    await curve.scrollIntoViewIfNeeded();
    const box = await curve.boundingBox();
    if (!box) throw new Error("no curve");
    await panel.page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    await panel.page.mouse.down();
    await panel.page.mouse.move(box.x + box.width / 2, box.y + box.height * 0.4, { steps: 4 });
    await panel.page.mouse.up();
    await settle();
    expect(await steps()).toBe(1);
    expect(await text()).toMatch(/curve: \[\[0, 0\], \[50(\.\d)?, 6\d(\.\d)?\], \[100, 100\]\]/);
    await panel.page.locator(".curve-point").nth(1).focus();
    await panel.page.keyboard.press("ArrowUp");
    await panel.page.keyboard.press("ArrowUp");
    await expect.poll(steps, { timeout: 3000 }).toBe(2);
    await panel.page.locator(".curve-point").nth(1).focus();
    await panel.page.keyboard.press("Delete");
    await settle();
    expect(await text()).toBe(rollText(3));
  });
});
