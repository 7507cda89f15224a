/** The panel in a real browser with a host that is not there: what it shows, and when things go wrong. */
import sharp from "sharp";
import { describe, expect, it } from "vitest";
import { hasChromium } from "./chromium.ts";
import { rollText } from "./open-panel.ts";
import { usePanel } from "./panel-driver.ts";
import { patchAt, patchDensity } from "./wedge.ts";

describe.skipIf(!hasChromium)("the panel", () => {
  const panel = usePanel();
  const { start, settle, text, steps, ui, clientOf, screenAt, click } = panel;

  it("reads the density of a known patch within 0.01 D", async () => {
    await start();
    for (const [column, row] of [
      [0, 0],
      [4, 1],
      [2, 3],
    ] as const) {
      const { x, y } = await clientOf(patchAt(column, row));
      await panel.page.mouse.move(x, y);
      await settle();
      const cells = await panel.page
        .locator("table.readings tbody:first-of-type tr")
        .nth(3)
        .locator("td")
        .allTextContents();
      const read = cells.map((c) => Number(c.replace("−", "-")));
      patchDensity(column, row).forEach((d, c) => expect(Math.abs(read[c] - d)).toBeLessThan(0.01));
    }
  });

  it("names a problem beside the last good picture", async () => {
    await start();
    const before = await screenAt(patchAt(3, 0));
    await panel.page.evaluate(() => window.fake.type(window.fake.text().replace("exposure: 0.2", "exposure: bright")));
    await settle();
    const notice = panel.page.locator(".notices .error");
    await expect.poll(() => notice.textContent()).toMatch(/line 9: .*bright|line 9/);
    expect(await notice.textContent()).toContain("last text without errors");
    expect(await screenAt(patchAt(3, 0))).toEqual(before);
    await expect.poll(() => panel.page.locator("[data-control=exposure] input[type=range]").isDisabled()).toBe(true);
    await panel.page.evaluate(() => window.fake.undo());
    await settle();
    expect(await panel.page.locator(".notices").isVisible()).toBe(false);
  });

  it("says why a scan cannot be shown, and goes on with the others", async () => {
    await start({ text: rollText(3).replace("H0002.dng", "BROKEN.dng") });
    await panel.page.keyboard.press("PageDown");
    await expect
      .poll(() => panel.page.locator(".notices .error").textContent())
      .toContain("BROKEN.dng ends too early. Copy it from the card again.");
    await panel.page.keyboard.press("PageDown");
    await panel.page.waitForFunction(() => window.panel.session.store.get().current);
    expect(await panel.page.locator(".notices .error").count()).toBe(0);
    panel.forgive(/BROKEN/);
  });

  it("opens the strip of 200 frames without fetching them all, and moves along it by keys", async () => {
    await start({ text: rollText(200) });
    await panel.page.waitForTimeout(500);
    const requested = await panel.page.evaluate(() => ({ ...window.fake.fromPictures }));
    expect(await panel.page.locator(".tile").count()).toBe(200);
    expect(requested.thumbnail).toBeGreaterThan(5);
    expect(requested.thumbnail).toBeLessThan(20);
    // The one in view, and its neighbours ahead of need.
    expect(requested.picture).toBeLessThanOrEqual(3);
    await panel.page.locator(".tile").first().focus();
    await panel.page.keyboard.press("End");
    await expect.poll(() => panel.page.locator(".tile[aria-selected=true]").getAttribute("data-frame")).toBe("200");
    await panel.page.keyboard.press("ArrowLeft");
    await expect.poll(() => panel.page.locator(".tile[aria-selected=true]").getAttribute("data-frame")).toBe("199");
    await panel.page.waitForTimeout(300);
    expect((await panel.page.evaluate(() => window.fake.fromPictures.thumbnail)) ?? 0).toBeLessThan(60);
  });

  it("follows the text's cursor", async () => {
    await start();
    await panel.page.evaluate(() => window.panel.receive({ kind: "event", name: "show", value: { frame: "03" } }));
    await expect.poll(() => panel.page.locator(".frame-name").textContent()).toBe("03");
    // What came from the text is not told to it again.
    expect(await panel.page.evaluate(() => window.fake.fromPictures.select ?? 0)).toBe(0);
    await panel.page.keyboard.press("PageUp");
    await expect.poll(() => panel.page.evaluate(() => window.fake.fromPictures.select)).toBe(1);
  });

  it("wipes, shows both side by side, and shows the other alone while C is held", async () => {
    await start();
    const place = patchAt(1, 2);
    const print = await screenAt(place);
    await panel.page.keyboard.down("c");
    await settle();
    const negative = await screenAt(place);
    await panel.page.keyboard.up("c");
    await settle();
    expect(await screenAt(place)).toEqual(print);
    expect(Math.abs(negative[2] - print[2])).toBeGreaterThan(10);
    await ui({ compare: "wipe", wipe: 0.9 });
    await settle();
    expect(await screenAt(place)).toEqual(negative);
    await panel.page.locator(".wipe input").focus();
    await panel.page.keyboard.press("Home");
    await settle();
    expect(await screenAt(place)).toEqual(print);
    await ui({ compare: "beside" });
    await settle();
    expect(await screenAt(place)).toEqual(negative);
    const paneBoxes = await panel.page.evaluate(() => window.panel.picture.layout()?.paneBoxes.length);
    expect(paneBoxes).toBe(2);
  });

  it("zooms to 100 %, fetches the visible part at full size, and keeps the sight over frames", async () => {
    await start();
    await panel.page.keyboard.press("1");
    await settle();
    expect(await panel.page.evaluate(() => window.panel.picture.layout()?.zoom)).toBe(1);
    await panel.page.waitForFunction(() => window.panel.session.store.get().detail !== undefined);
    const part = await panel.page.evaluate(() => window.panel.session.store.get().detail?.part);
    expect(part?.width).toBeLessThan(0.6);
    await panel.page.keyboard.press("PageDown");
    await panel.page.waitForFunction(() => window.panel.session.store.get().current);
    await settle();
    expect(await panel.page.evaluate(() => window.panel.picture.layout()?.zoom)).toBe(1);
    await panel.page.keyboard.press("0");
    await settle();
    expect(await panel.page.evaluate(() => window.panel.session.store.get().ui.viewport.zoom)).toBe("fit");
  });

  it("works by keyboard alone: the picker's cross moves with arrows and picks with Enter", async () => {
    await start();
    await ui({ tool: "neutral" });
    await panel.page.locator(".stage").focus();
    for (let i = 0; i < 4; i++) await panel.page.keyboard.press("ArrowUp");
    await settle();
    expect(await panel.page.locator(".overlay .cross").count()).toBe(1);
    await panel.page.keyboard.press("Enter");
    await expect.poll(steps).toBe(1);
    expect(await text()).toContain("filtration:");
    await ui({ tool: "base" });
    await panel.page.locator(".stage").focus();
    await panel.page.keyboard.press("ArrowLeft");
    await panel.page.keyboard.press("Enter");
    for (let i = 0; i < 6; i++) await panel.page.keyboard.press("ArrowRight");
    await panel.page.keyboard.press("ArrowDown");
    await panel.page.keyboard.press("Enter");
    await expect.poll(steps).toBe(2);
  });

  it("pins readings, which follow the look, and keeps them with the frame", async () => {
    await start();
    await ui({ tool: "pin" });
    await click(patchAt(3, 0));
    const row = () =>
      panel.page.locator("table.readings tbody").nth(1).locator("tr").nth(5).locator("td").first().textContent();
    const before = Number(await row());
    await ui({ tool: "look" });
    const number = panel.page.locator("[data-control=exposure] input[type=number]");
    await number.fill("1.2");
    await number.press("Enter");
    await settle();
    expect(Number(await row())).toBeGreaterThan(before + 5);
    expect(await panel.page.evaluate(() => window.fake.host.getState())).toMatchObject({
      pins: { "01": [[expect.any(Number), expect.any(Number)]] },
    });
  });

  it.each(["gpu", "cpu"])("hatches clipping in neutral greys, with a legend, on the %s", async (kind) => {
    await start({
      text: rollText(3).replace("exposure: 0.2", "exposure: 6"),
      ...(kind === "cpu" ? { gpu: "never" as const } : {}),
    });
    const colours = async (): Promise<string[]> => {
      const { x, y } = await clientOf(patchAt(5, 1));
      const clip = { x: Math.round(x) - 8, y: Math.round(y) - 8, width: 16, height: 16 };
      const { data } = await sharp(await panel.page.screenshot({ clip }))
        .removeAlpha()
        .raw()
        .toBuffer({ resolveWithObject: true });
      return [...new Set(Array.from({ length: 256 }, (_, i) => data.subarray(3 * i, 3 * i + 3).join(" ")))].toSorted();
    };
    expect(await colours()).toHaveLength(1);
    await ui({ warn: true });
    await settle();
    // The lines, and between them the picture as it is.
    const hatched = await colours();
    expect(hatched).toContain("70 70 70");
    expect(hatched).toHaveLength(2);
    await expect.poll(() => panel.page.locator(".legend-part:has(.swatch)").innerText()).toContain("deepest black");
    await ui({ view: "negative" });
    await settle();
    expect(await colours()).toHaveLength(1);
    expect(await panel.page.locator(".legend-part:has(.swatch)").innerText()).not.toContain("deepest black");
  });

  it.each(["gpu", "cpu"])("prints the holder black around the crop, on the %s", async (kind) => {
    await start(kind === "cpu" ? { gpu: "never" } : {});
    await ui({ tool: "base" });
    await settle();
    expect(await screenAt([0.006, 0.5])).toEqual([0, 0, 0]);
    // So is its edge, which would print as a coloured fringe.
    expect(await screenAt([0.0165, 0.5])).toEqual([0, 0, 0]);
    // Inside the crop everything is picture.
    await panel.page.evaluate(() =>
      window.fake.type(
        window.fake.text().replaceAll(/area: .*/g, "area: { left: 0, top: 0, width: 0.9, height: 0.9 }"),
      ),
    );
    await settle();
    expect(Math.min(...(await screenAt([0.006, 0.5])))).toBeGreaterThan(200);
  });

  it("reports colours of an export that the screen cannot show", async () => {
    const output = "output:\n  - { name: archive, type: tiff, space: romm }\n";
    await start({
      text: rollText(3)
        .replace("frames:", `${output}frames:`)
        .replace("  exposure: 0.2", "  saturation: 3\n  exposure: 0.2"),
    });
    const note = panel.page.locator(".legend-part").last();
    await expect
      .poll(() => note.innerText())
      .toMatch(/^Export \(romm\): [\d.]+ % in colours that this screen cannot show$/);
    await panel.page.evaluate(() => window.fake.type(window.fake.text().replace("space: romm", "space: srgb")));
    await expect.poll(() => note.isVisible()).toBe(false);
  });

  it("keeps working when the graphics are lost, with the same picture", async () => {
    await start({ worker: true });
    const before = await screenAt(patchAt(3, 0));
    expect(await panel.page.evaluate(() => window.panel.surface().kind)).toBe("gpu");
    await panel.page.evaluate(() => {
      const gl = document.querySelector<HTMLCanvasElement>("canvas.picture")?.getContext("webgl2");
      gl?.getExtension("WEBGL_lose_context")?.loseContext();
    });
    await panel.page.waitForFunction(() => window.panel.surface().kind === "cpu");
    // The processor's picture stands there once its worker has started.
    const difference = async (): Promise<number> =>
      Math.max(...(await screenAt(patchAt(3, 0))).map((v, c) => Math.abs(v - before[c])));
    await expect.poll(difference, { timeout: 20_000 }).toBeLessThanOrEqual(1);
    panel.forgive(/context|WebGL/i);
  });

  it("does without WebGL from the start, in the page as in a worker", async () => {
    for (const worker of [true, false]) {
      await start({ gpu: worker ? "real" : "never", worker });
      await panel.page.waitForTimeout(300);
      expect(await panel.page.evaluate(() => window.panel.surface().kind)).toBe("cpu");
      const [r, g, b] = await screenAt(patchAt(3, 0));
      expect(r + g + b).toBeGreaterThan(60);
      if (worker) await panel.page.close();
    }
  });

  it("shows nothing but text in restricted mode", async () => {
    await panel.open({ trusted: false });
    await expect.poll(() => panel.page.locator(".notices").textContent()).toContain("restricted mode");
    expect(await panel.page.evaluate(() => window.fake.fromPictures.picture ?? 0)).toBe(0);
  });

  it("keeps the surround neutral in every theme", async () => {
    for (const theme of ["light", "contrast"] as const) {
      await start({ theme });
      const box = await panel.page.locator(".stage").boundingBox();
      const shot = await panel.page.screenshot({
        clip: { x: (box?.x ?? 0) + 6, y: (box?.y ?? 0) + 6, width: 1, height: 1 },
      });
      const [r, g, b] = await sharp(shot).removeAlpha().raw().toBuffer();
      expect([r, g, b]).toEqual([119, 119, 119]);
      if (theme === "light") await panel.page.close();
    }
  });
});
