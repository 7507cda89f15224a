/** The panel in a real browser with a host that is not there: gestures, and what they make of the recipe's text. */
import type { Browser, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, describe, expect, it } from "vitest";
import { hasChromium, launch } from "./chromium.ts";
import { openPanel, type OpenOptions, rollText } from "./open-panel.ts";
import { BASE, patchAt, patchDensity } from "./wedge.ts";

describe.skipIf(!hasChromium)("the panel", () => {
  let browser: Browser;
  let page: Page;
  let complaints: string[];

  beforeAll(async () => {
    browser = await launch();
  });
  afterAll(() => browser.close());
  afterEach(async () => {
    await page.close();
    if (complaints.length) throw new Error(`The page complained: ${complaints.join("\n")}`);
  });

  async function start(options: OpenOptions = {}): Promise<void> {
    ({ page, complaints } = await openPanel(browser, options));
    await page.waitForFunction(() => window.panel.session.store.get().current);
    await settle();
  }
  /** Until everything that was set in motion is drawn. */
  const settle = () =>
    page.evaluate(
      () =>
        new Promise<void>((done) =>
          setTimeout(() => requestAnimationFrame(() => requestAnimationFrame(() => done())), 60),
        ),
    );
  const text = () => page.evaluate(() => window.fake.text());
  const steps = () => page.evaluate(() => window.fake.steps());
  const ui = (change: object) => page.evaluate((c) => window.panel.session.ui(c), change);

  /** Client position of a place of the scan. */
  async function clientOf([x, y]: readonly [number, number]): Promise<{ x: number; y: number }> {
    return await page.evaluate(
      ([u, v]) => {
        const layout = window.panel.picture.layout();
        const canvas = document.querySelector("canvas.picture");
        if (!layout || !canvas) throw new Error("no picture");
        const [m, box] = [layout.maps[0], canvas.getBoundingClientRect()];
        const [px, py] = [u * layout.source.scanWidth, v * layout.source.scanHeight];
        return {
          x: box.left + (m.a * px + m.c * py + m.e) / layout.ratio,
          y: box.top + (m.b * px + m.d * py + m.f) / layout.ratio,
        };
      },
      [x, y],
    );
  }
  /** Colour of the screen at a place of the scan, 0 … 255. */
  async function screenAt(place: readonly [number, number]): Promise<[number, number, number]> {
    const { x, y } = await clientOf(place);
    const shot = await page.screenshot({ clip: { x: Math.round(x), y: Math.round(y), width: 1, height: 1 } });
    const { default: sharp } = await import("sharp");
    const { data } = await sharp(shot).removeAlpha().raw().toBuffer({ resolveWithObject: true });
    return [data[0], data[1], data[2]];
  }
  async function drag(from: readonly [number, number], to: readonly [number, number]): Promise<void> {
    const [a, b] = [await clientOf(from), await clientOf(to)];
    await page.mouse.move(a.x, a.y);
    await page.mouse.down();
    await page.mouse.move((a.x + b.x) / 2, (a.y + b.y) / 2, { steps: 3 });
    await page.mouse.move(b.x, b.y, { steps: 3 });
    await page.mouse.up();
    await settle();
  }
  async function click(place: readonly [number, number]): Promise<void> {
    const { x, y } = await clientOf(place);
    await page.mouse.click(x, y);
    await settle();
  }

  it("reads the density of a known patch within 0.01 D", async () => {
    await start();
    for (const [column, row] of [
      [0, 0],
      [4, 1],
      [2, 3],
    ] as const) {
      const { x, y } = await clientOf(patchAt(column, row));
      await page.mouse.move(x, y);
      await settle();
      const cells = await page.locator("table.readings tbody:first-of-type tr").nth(3).locator("td").allTextContents();
      const read = cells.map((c) => Number(c.replace("−", "-")));
      patchDensity(column, row).forEach((d, c) => expect(Math.abs(read[c] - d)).toBeLessThan(0.01));
    }
  });

  it("drags exposure: pixels at once, one edit when let go, one undo for both", async () => {
    await start();
    const place = patchAt(3, 0);
    const before = await screenAt(place);
    const range = page.locator("[data-control=exposure] input[type=range]");
    const box = await range.boundingBox();
    if (!box) throw new Error("no slider");
    await page.mouse.move(box.x + box.width * 0.525, box.y + box.height / 2);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width * 0.65, box.y + box.height / 2, { steps: 8 });
    await settle();
    const during = await screenAt(place);
    expect(during[1]).toBeGreaterThan(before[1] + 15);
    expect(await steps()).toBe(0);
    await page.mouse.up();
    await settle();
    expect(await steps()).toBe(1);
    const written = await text();
    expect(written).toMatch(/"01":\n {4}scan: H0001\.dng\n {4}area: .*\n {4}positive: \{ exposure: 1\.\d+ \}/);
    expect(written).toContain("exposure: 0.2 # the whole roll is a little thin");
    expect(await screenAt(place)).toEqual(during);
    await page.keyboard.press("Control+z");
    await settle();
    expect(await text()).toBe(rollText(3));
    expect(await screenAt(place)).toEqual(before);
    await page.keyboard.press("Control+y");
    await settle();
    expect(await text()).toBe(written);
  });

  it("says where a value comes from, resets it, and writes to the roll when told to", async () => {
    await start();
    const row = page.locator(".row", { has: page.locator("[data-control=exposure]") });
    await expect.poll(() => row.locator(".level").textContent()).toBe("roll");
    const number = row.locator("input[type=number]");
    await number.fill("0.5");
    await number.press("Enter");
    await settle();
    await expect.poll(() => row.locator(".level").textContent()).toBe("frame");
    expect(await text()).toContain("positive: { exposure: 0.5 }");
    await row.locator("vscode-button[aria-label^='Reset Exposure to +0.20']").click();
    await settle();
    expect(await text()).toBe(rollText(3));
    await page.locator("input[name=scope][value=roll]").check();
    await number.fill("0.7");
    await number.press("Enter");
    await settle();
    expect(await text()).toContain("  exposure: 0.7 # the whole roll is a little thin");
    expect(await steps()).toBe(3);
  });

  it("runs of arrow keys on a slider are one gesture", async () => {
    await start();
    await page.locator("[data-control=contrast] input[type=range]").focus();
    for (let i = 0; i < 5; i++) await page.keyboard.press("ArrowRight");
    expect(await steps()).toBe(0);
    await expect.poll(steps, { timeout: 3000 }).toBe(1);
    expect(await text()).toContain("contrast: 1.55");
  });

  it("picks a neutral: the patch becomes grey, magenta and yellow are written", async () => {
    await start();
    await page.locator("vscode-button[aria-label^='Click on something that was grey']").click();
    await click(patchAt(4, 1));
    const written = await text();
    expect(written).toMatch(/positive: \{ filtration: \{ magenta: -?[\d.]+, yellow: -?[\d.]+ \} \}/);
    expect(await steps()).toBe(1);
    const [r, g, b] = await screenAt(patchAt(4, 1));
    expect(Math.max(r, g, b) - Math.min(r, g, b)).toBeLessThanOrEqual(2);
    expect(await page.evaluate(() => window.panel.session.store.get().ui.tool)).toBe("look");
  });

  it("picks a mid-grey: the patch comes to 18 %, L* 49.5, which is 119 in sRGB (IEC 61966-2-1)", async () => {
    await start();
    await page.locator("vscode-button[aria-label^='Click on something that was grey']").click();
    await click(patchAt(3, 1));
    await page.locator("vscode-button[aria-label^='Click on something of medium brightness']").click();
    await click(patchAt(3, 1));
    expect(await text()).toMatch(/exposure: -?\d\.\d+, filtration/);
    const [, g] = await screenAt(patchAt(3, 1));
    // 0.18 encodes to 117.7; L* 49.5 is the same light.
    expect(Math.abs(g - 118)).toBeLessThanOrEqual(1);
  });

  it("reads the base by dragging over the rebate, for the roll", async () => {
    await start();
    await page.locator("vscode-button[aria-label^='Draw a rectangle over the rebate']").click();
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
    await page.locator("vscode-button[aria-label^='Crop over the whole scan']").click();
    await settle();
    await drag([0.05, 0.05], [0.15, 0.2]);
    expect(await steps()).toBe(1);
    const area = /"01":\n {4}scan: H0001\.dng\n {4}area: (\{.*\})/.exec(await text())?.[1] ?? "";
    const [left, top, width, height] = [...area.matchAll(/0\.\d+/g)].map((m) => Number(m[0]));
    expect(left).toBeCloseTo(0.15, 2);
    expect(top).toBeCloseTo(0.2, 2);
    expect(left + width).toBeCloseTo(0.95, 3);
    expect(top + height).toBeCloseTo(0.95, 3);
    await page.getByText("Same for the following frames").click();
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
    await page.locator("vscode-button[aria-label^='Turn a quarter']").click();
    await settle();
    await page.locator("vscode-button[aria-label^='Swap left and right']").click();
    await settle();
    expect(await text()).toContain("    turn: 90\n    mirror: true\n");
    for (let i = 0; i < 3; i++) {
      await page.locator("vscode-button[aria-label^='Turn a quarter']").click();
      await settle();
    }
    await page.locator("vscode-button[aria-label^='Swap left and right']").click();
    await settle();
    expect(await text()).toBe(rollText(3));
  });

  it("adds a spot where one clicks and takes it away again", async () => {
    await start();
    await page.locator("vscode-button[aria-label^='Click a speck']").click();
    await settle();
    await click([0.4, 0.3]);
    expect(await text()).toMatch(/spots: \[\[0\.4\d*, 0\.2\d*, 0\.003\]\]/);
    await click([0.4, 0.3]);
    expect(await text()).toBe(rollText(3));
    await drag([0.5, 0.5], [0.52, 0.5]);
    expect(Number(/spots: \[\[[\d.]+, [\d.]+, ([\d.]+)\]\]/.exec(await text())?.[1])).toBeCloseTo(0.02, 2);
  });

  it("bends the curve by a point, moves it with the keyboard, and straightens it", async () => {
    await start();
    const curve = page.locator("svg.curve");
    await curve.scrollIntoViewIfNeeded();
    const box = await curve.boundingBox();
    if (!box) throw new Error("no curve");
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width / 2, box.y + box.height * 0.4, { steps: 4 });
    await page.mouse.up();
    await settle();
    expect(await steps()).toBe(1);
    expect(await text()).toMatch(/curve: \[\[0, 0\], \[50(\.\d)?, 6\d(\.\d)?\], \[100, 100\]\]/);
    await page.locator(".curve-point").nth(1).focus();
    await page.keyboard.press("ArrowUp");
    await page.keyboard.press("ArrowUp");
    await expect.poll(steps, { timeout: 3000 }).toBe(2);
    await page.locator(".curve-point").nth(1).focus();
    await page.keyboard.press("Delete");
    await settle();
    expect(await text()).toBe(rollText(3));
  });

  it("names a problem beside the last good picture", async () => {
    await start();
    const before = await screenAt(patchAt(3, 0));
    await page.evaluate(() => window.fake.type(window.fake.text().replace("exposure: 0.2", "exposure: bright")));
    await settle();
    const notice = page.locator(".notices .error");
    await expect.poll(() => notice.textContent()).toMatch(/line 9: .*bright|line 9/);
    expect(await notice.textContent()).toContain("last text without errors");
    expect(await screenAt(patchAt(3, 0))).toEqual(before);
    await expect.poll(() => page.locator("[data-control=exposure] input[type=range]").isDisabled()).toBe(true);
    await page.evaluate(() => window.fake.undo());
    await settle();
    expect(await page.locator(".notices").isVisible()).toBe(false);
  });

  it("says why a scan cannot be shown, and goes on with the others", async () => {
    await start({ text: rollText(3).replace("H0002.dng", "BROKEN.dng") });
    await page.keyboard.press("PageDown");
    await expect
      .poll(() => page.locator(".notices .error").textContent())
      .toContain("BROKEN.dng ends too early. Copy it from the card again.");
    await page.keyboard.press("PageDown");
    await page.waitForFunction(() => window.panel.session.store.get().current);
    expect(await page.locator(".notices .error").count()).toBe(0);
    complaints = complaints.filter((c) => !c.includes("BROKEN"));
  });

  it("opens the strip of 200 frames without fetching them all, and moves along it by keys", async () => {
    await start({ text: rollText(200) });
    await page.waitForTimeout(500);
    const asked = await page.evaluate(() => ({ ...window.fake.asked }));
    expect(await page.locator(".tile").count()).toBe(200);
    expect(asked.thumbnail).toBeGreaterThan(5);
    expect(asked.thumbnail).toBeLessThan(20);
    expect(asked.picture).toBe(1);
    await page.locator(".tile").first().focus();
    await page.keyboard.press("End");
    await expect.poll(() => page.locator(".tile[aria-selected=true]").getAttribute("data-frame")).toBe("200");
    await page.keyboard.press("ArrowLeft");
    await expect.poll(() => page.locator(".tile[aria-selected=true]").getAttribute("data-frame")).toBe("199");
    await page.waitForTimeout(300);
    expect((await page.evaluate(() => window.fake.asked.thumbnail)) ?? 0).toBeLessThan(60);
  });

  it("follows the text's cursor", async () => {
    await start();
    await page.evaluate(() => window.panel.receive({ kind: "event", event: "show", frame: "03" }));
    await expect.poll(() => page.locator(".frame-name").textContent()).toBe("03");
    // What came from the text is not told to it again.
    expect(await page.evaluate(() => window.fake.asked.select ?? 0)).toBe(0);
    await page.keyboard.press("PageUp");
    await expect.poll(() => page.evaluate(() => window.fake.asked.select)).toBe(1);
  });

  it("wipes, shows both side by side, and shows the other alone while C is held", async () => {
    await start();
    const place = patchAt(1, 2);
    const print = await screenAt(place);
    await page.keyboard.down("c");
    await settle();
    const negative = await screenAt(place);
    await page.keyboard.up("c");
    await settle();
    expect(await screenAt(place)).toEqual(print);
    expect(Math.abs(negative[2] - print[2])).toBeGreaterThan(10);
    await ui({ compare: "wipe", wipe: 0.9 });
    await settle();
    expect(await screenAt(place)).toEqual(negative);
    await page.locator(".wipe input").focus();
    await page.keyboard.press("Home");
    await settle();
    expect(await screenAt(place)).toEqual(print);
    await ui({ compare: "beside" });
    await settle();
    expect(await screenAt(place)).toEqual(negative);
    const rooms = await page.evaluate(() => window.panel.picture.layout()?.rooms.length);
    expect(rooms).toBe(2);
  });

  it("zooms to 100 %, fetches the part in sight at full size, and keeps the sight over frames", async () => {
    await start();
    await page.keyboard.press("1");
    await settle();
    expect(await page.evaluate(() => window.panel.picture.layout()?.zoom)).toBe(1);
    await page.waitForFunction(() => window.panel.session.store.get().detail !== undefined);
    const part = await page.evaluate(() => window.panel.session.store.get().detail?.part);
    expect(part?.width).toBeLessThan(0.6);
    await page.keyboard.press("PageDown");
    await page.waitForFunction(() => window.panel.session.store.get().current);
    await settle();
    expect(await page.evaluate(() => window.panel.picture.layout()?.zoom)).toBe(1);
    await page.keyboard.press("0");
    await settle();
    expect(await page.evaluate(() => window.panel.session.store.get().ui.sight.zoom)).toBe("fit");
  });

  it("works by keyboard alone: the picker's cross moves with arrows and picks with Enter", async () => {
    await start();
    await ui({ tool: "neutral" });
    await page.locator(".stage").focus();
    for (let i = 0; i < 4; i++) await page.keyboard.press("ArrowUp");
    await settle();
    expect(await page.locator(".overlay .cross").count()).toBe(1);
    await page.keyboard.press("Enter");
    await expect.poll(steps).toBe(1);
    expect(await text()).toContain("filtration:");
    await ui({ tool: "base" });
    await page.locator(".stage").focus();
    await page.keyboard.press("ArrowLeft");
    await page.keyboard.press("Enter");
    for (let i = 0; i < 6; i++) await page.keyboard.press("ArrowRight");
    await page.keyboard.press("ArrowDown");
    await page.keyboard.press("Enter");
    await expect.poll(steps).toBe(2);
  });

  it("pins readings, which follow the look, and keeps them with the frame", async () => {
    await start();
    await ui({ tool: "pin" });
    await click(patchAt(3, 0));
    const row = () =>
      page.locator("table.readings tbody").nth(1).locator("tr").nth(5).locator("td").first().textContent();
    const before = Number(await row());
    await ui({ tool: "look" });
    const number = page.locator("[data-control=exposure] input[type=number]");
    await number.fill("1.2");
    await number.press("Enter");
    await settle();
    expect(Number(await row())).toBeGreaterThan(before + 5);
    expect(await page.evaluate(() => window.fake.host.getState())).toMatchObject({
      pins: { "01": [[expect.any(Number), expect.any(Number)]] },
    });
  });

  it("shows lost tones in colours that no picture has", async () => {
    await start({ text: rollText(3).replace("exposure: 0.2", "exposure: 6") });
    await ui({ warn: true });
    await settle();
    expect(await screenAt(patchAt(5, 1))).toEqual([255, 26, 26]);
    await ui({ view: "negative" });
    await settle();
    expect(await screenAt(patchAt(5, 1))).not.toEqual([255, 26, 26]);
  });

  it("keeps working when the graphics are lost, with the same picture", async () => {
    await start({ worker: true });
    const before = await screenAt(patchAt(3, 0));
    expect(await page.evaluate(() => window.panel.surface().kind)).toBe("gpu");
    await page.evaluate(() => {
      const gl = document.querySelector<HTMLCanvasElement>("canvas.picture")?.getContext("webgl2");
      gl?.getExtension("WEBGL_lose_context")?.loseContext();
    });
    await page.waitForFunction(() => window.panel.surface().kind === "cpu");
    await page.waitForTimeout(400);
    const after = await screenAt(patchAt(3, 0));
    after.forEach((v, c) => expect(Math.abs(v - before[c])).toBeLessThanOrEqual(1));
    complaints = complaints.filter((c) => !/context|WebGL/i.test(c));
  });

  it("does without WebGL from the start, in the page as in a worker", async () => {
    for (const worker of [true, false]) {
      await start({ withoutGpu: true, worker });
      await page.waitForTimeout(300);
      expect(await page.evaluate(() => window.panel.surface().kind)).toBe("cpu");
      const [r, g, b] = await screenAt(patchAt(3, 0));
      expect(r + g + b).toBeGreaterThan(60);
      if (worker) await page.close();
    }
  });

  it("shows nothing but text in restricted mode", async () => {
    ({ page, complaints } = await openPanel(browser, { trusted: false }));
    await expect.poll(() => page.locator(".notices").textContent()).toContain("restricted mode");
    expect(await page.evaluate(() => window.fake.asked.picture ?? 0)).toBe(0);
  });

  it("keeps the surround neutral in every theme", async () => {
    for (const theme of ["light", "contrast"] as const) {
      await start({ theme });
      const box = await page.locator(".stage").boundingBox();
      const shot = await page.screenshot({ clip: { x: (box?.x ?? 0) + 6, y: (box?.y ?? 0) + 6, width: 1, height: 1 } });
      const { default: sharp } = await import("sharp");
      const [r, g, b] = await sharp(shot).removeAlpha().raw().toBuffer();
      expect([r, g, b]).toEqual([119, 119, 119]);
      if (theme === "light") await page.close();
    }
  });
});
