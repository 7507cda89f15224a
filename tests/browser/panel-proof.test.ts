/** The soft proof in the panel: switched by button and key, of the chosen output, on both executors, and when there is none. */
import { describe, expect, it } from "vitest";
import { hasChromium } from "./chromium.ts";
import { rollText } from "./open-panel.ts";
import { usePanel } from "./panel-driver.ts";
import { patchAt } from "./wedge.ts";

const PRINTS = `output:
  - { name: wall, type: tiff, print: { paper: A4, profile: ../profiles/matte.icc } }
  - { name: album, type: tiff, print: { paper: A5, profile: ../profiles/gloss.icc, intent: perceptual } }
  - { name: web, type: jpeg }
frames:`;
const text = rollText(2).replace("frames:", PRINTS);

describe.skipIf(!hasChromium)("the soft proof", () => {
  const panel = usePanel();
  const { start, settle, screenAt, ui, choose } = panel;
  const button = () => panel.page.locator("vscode-button", { hasText: /^\s*Proof\s*$/ });
  const legend = () => panel.page.locator(".legend");
  const pressed = async (): Promise<string | null> =>
    await button().evaluate((b) => (b.shadowRoot?.querySelector("[aria-pressed]") ?? b).getAttribute("aria-pressed"));
  const isGrey = ([r, g, b]: readonly number[]): boolean => Math.max(r!, g!, b!) - Math.min(r!, g!, b!) <= 1;
  /** A patch of the wedge with plain colour, and its lightest. */
  const COLOURED = patchAt(2, 3);

  /** Opens the panel and waits until the print is painted: a worker may take its time. */
  async function open(options: Partial<Parameters<typeof start>[0]>): Promise<void> {
    await start({ text, ...options });
    await expect.poll(async () => isGrey(await screenAt(COLOURED)), { timeout: 20_000 }).toBe(false);
  }

  it.each([
    ["graphics processor", { gpu: "always" }],
    ["main processor", { gpu: "never" }],
    ["main processor in a worker", { gpu: "never", worker: true }],
  ] as const)("shows the print on its paper, drawn by the %s", async (_, options) => {
    await open({ proof: true, ...options });
    const before = await screenAt(COLOURED);
    expect(await pressed()).toBe("false");
    await button().click();
    await expect.poll(async () => isGrey(await screenAt(COLOURED))).toBe(true);
    expect(await pressed()).toBe("true");
    expect(await legend().textContent()).toContain("Proof: wall · matte.icc · relative-colorimetric");
    const proofed = await screenAt(COLOURED);
    expect(proofed[0]).toBeGreaterThanOrEqual(60);
    expect(proofed[0]).toBeLessThanOrEqual(220);
    // Held, C shows the print as it was.
    await ui({ against: "unproofed" });
    await panel.page.keyboard.down("c");
    await expect.poll(async () => await screenAt(COLOURED)).toEqual(before);
    await panel.page.keyboard.up("c");
    await expect.poll(async () => isGrey(await screenAt(COLOURED))).toBe(true);
    await panel.page.keyboard.press("p");
    await expect.poll(async () => await screenAt(COLOURED)).toEqual(before);
    expect(await pressed()).toBe("false");
  });

  it("hatches colours that the paper has not, in neutral lines with a legend", async () => {
    await open({ proof: true });
    await panel.page.keyboard.press("p");
    await expect.poll(async () => isGrey(await screenAt(COLOURED))).toBe(true);
    const { x, y } = await panel.clientOf(COLOURED);
    const tones = async (): Promise<number> => {
      const shot = await panel.page.screenshot({
        clip: { x: Math.round(x), y: Math.round(y) - 8, width: 1, height: 16 },
      });
      const { default: sharp } = await import("sharp");
      const { data, info } = await sharp(shot).removeAlpha().raw().toBuffer({ resolveWithObject: true });
      return new Set(Array.from({ length: 16 }, (_, i) => data[i * info.channels]).filter((v) => v === 40 || v === 215))
        .size;
    };
    expect(await tones()).toBe(0);
    expect(await legend().textContent()).toContain("not on this paper");
    await ui({ warn: true });
    await settle();
    expect(await tones()).toBe(2);
    expect(await legend().locator(".swatch.gamut").isVisible()).toBe(true);
    await ui({ proof: false });
    await settle();
    expect(await legend().locator(".swatch.gamut").isVisible()).toBe(false);
  });

  it("is of the output that is chosen, and comes to the positive from another view", async () => {
    await open({ proof: true });
    await ui({ view: "negative" });
    await panel.page.keyboard.press("p");
    await settle();
    expect(await panel.page.evaluate(() => window.panel.session.store.get().ui.view)).toBe("print");
    await choose("Output that is proofed", "album");
    await expect.poll(() => legend().textContent()).toContain("Proof: album · gloss.icc · perceptual");
    expect(await panel.page.evaluate(() => window.fake.fromPictures.proof)).toBe(2);
  });

  it("leaves the normal picture and names the remedy where a profile cannot be used, or no output has one", async () => {
    await open({});
    const before = await screenAt(COLOURED);
    await panel.page.keyboard.press("p");
    const notice = panel.page.locator(".notices");
    await expect.poll(() => notice.textContent()).toContain("Name the .icc or .icm file of the printer and paper.");
    expect(await screenAt(COLOURED)).toEqual(before);
    await panel.page.evaluate((plain) => window.fake.type(plain), rollText(2));
    await expect.poll(() => notice.textContent()).toContain("Add print with paper and profile to an output.");
    await panel.page.keyboard.press("p");
    await expect.poll(() => notice.isVisible()).toBe(false);
    panel.forgive(/matte/);
  });
});
