/** The paper's contrast in the panel: on black-and-white film, by grade or fitted to the negative, each one edit. */
import { describe, expect, it } from "vitest";
import { lightnessOf } from "../../extension/engine/colour/lab.ts";
import { SPACES } from "../../extension/engine/colour/spaces.ts";
import { apply } from "../../extension/engine/math/matrix.ts";
import { hasChromium } from "./chromium.ts";
import { STOCK } from "./open-panel.ts";
import { usePanel } from "./panel-driver.ts";
import { patchAt } from "./wedge.ts";

const SILVER = STOCK.replace("colour-negative", "black-and-white-negative").replace("[0.53, 0.56, 0.63]", "0.6");

describe.skipIf(!hasChromium)("the print of black-and-white film", () => {
  const panel = usePanel();
  const { start, settle, text, steps, screenAt } = panel;
  const paper = () => panel.page.locator(".paper");
  const look = () => panel.page.evaluate(() => window.panel.session.look()!.tone);

  it("has no paper on film with colours", async () => {
    await start();
    expect(await paper().isHidden()).toBe(true);
  });

  it("gets its paper as a grade: one edit, and a harder paper parts the tones more", async () => {
    await start({ stock: SILVER });
    const spread = async (): Promise<number> => (await screenAt(patchAt(5, 0)))[1] - (await screenAt(patchAt(0, 0)))[1];
    const before = await spread();
    await panel.choose("Paper", "grade 5");
    await settle();
    expect(await steps()).toBe(1);
    expect(await text()).toContain("positive: { contrast: grade 5 }");
    expect((await look()).range).toBe(60);
    expect(await spread()).toBeGreaterThan(before + 10);
    // The slope follows a toe that moves, for the paper stays the same.
    const slope = (await look()).contrast;
    const toe = panel.page.locator("[data-control=toe] input[type=number]:visible");
    await toe.fill("0.9");
    await toe.press("Enter");
    await settle();
    expect((await look()).range).toBe(60);
    expect((await look()).contrast).not.toBeCloseTo(slope, 2);
    // The slider writes a slope in its place.
    const contrast = panel.page.locator("[data-control=contrast] input[type=number]");
    await contrast.fill("1.4");
    await contrast.press("Enter");
    await settle();
    expect(await text()).toContain("contrast: 1.4");
    expect((await look()).range).toBeUndefined();
  });

  it("is toned: hue and strength are edits of their own, and the screen shows the colour at the same lightness", async () => {
    await start({ stock: SILVER });
    const before = await screenAt(patchAt(3, 1));
    await panel.page.locator("[data-section=toning] summary").click();
    const fill = async (control: string, value: string): Promise<void> => {
      const number = panel.page.locator(`[data-control=${control}] input[type=number]`);
      await number.fill(value);
      await number.press("Enter");
      await settle();
    };
    await fill("highlightStrength", "30");
    await fill("highlightHue", "75");
    expect(await steps()).toBe(2);
    expect(await text()).toContain("positive: { toning: { highlights: { hue: 75, strength: 30 } } }");
    const [r, g, b] = await screenAt(patchAt(3, 1));
    expect(r).toBeGreaterThan(b + 15);
    const luminance = (rgb: readonly number[]): number => {
      const [x, y, z] = rgb.map((v) => SPACES.srgb.decode(v! / 255)) as [number, number, number];
      return apply(SPACES.srgb.toXyz, [x, y, z])[1];
    };
    expect(Math.abs(lightnessOf(luminance([r, g, b])) - lightnessOf(luminance(before)))).toBeLessThan(0.5);
    expect(await panel.page.locator("[data-control=saturation]").isHidden()).toBe(true);
  });

  it("gets the paper that fits the negative's density range", async () => {
    await start({ stock: SILVER });
    const hint = (await paper().locator(".hint").textContent()) ?? "";
    const range = /spans ([\d.]+) D: (R\d+) fits/.exec(hint);
    // The wedge's patches lie between 0.15 and 1.47 D above base in green.
    expect(Number(range?.[1])).toBeGreaterThan(1.1);
    expect(Number(range?.[1])).toBeLessThan(1.5);
    await paper().locator("vscode-button").click();
    await settle();
    expect(await text()).toContain(`positive: { contrast: ${range?.[2]} }`);
    expect(await steps()).toBe(1);
    expect(await paper().locator(".hint").textContent()).toContain(`The print holds ${range?.[2]}.`);
  });
});
