/** Drives the panel on its test page: starts it, points at places of the scan, reads the screen. */
import type { Page } from "playwright-core";
import sharp from "sharp";
import { openPanel, type OpenOptions } from "./open-panel.ts";
import { usePage } from "./use-page.ts";

type Place = readonly [x: number, y: number];

/** One browser for a file of tests, one page a test. A page that complained on its console fails its test. */
export function usePanel() {
  const pages = usePage();
  let page: Page;

  /** Opens the page without waiting for its first picture. */
  async function open(options: OpenOptions): Promise<void> {
    page = await pages.show((browser) => openPanel(browser, options));
  }
  async function start(options: OpenOptions = {}): Promise<void> {
    await open(options);
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
  async function clientOf([x, y]: Place): Promise<{ x: number; y: number }> {
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
  async function screenAt(place: Place): Promise<[number, number, number]> {
    const { x, y } = await clientOf(place);
    const shot = await page.screenshot({ clip: { x: Math.round(x), y: Math.round(y), width: 1, height: 1 } });
    const { data } = await sharp(shot).removeAlpha().raw().toBuffer({ resolveWithObject: true });
    return [data[0], data[1], data[2]];
  }
  async function drag(from: Place, to: Place): Promise<void> {
    const [a, b] = [await clientOf(from), await clientOf(to)];
    await page.mouse.move(a.x, a.y);
    await page.mouse.down();
    await page.mouse.move((a.x + b.x) / 2, (a.y + b.y) / 2, { steps: 3 });
    await page.mouse.move(b.x, b.y, { steps: 3 });
    await page.mouse.up();
    await settle();
  }
  /** Presses at the first place, goes along the others, and lets go at the last. */
  async function stroke(first: Place, ...along: readonly Place[]): Promise<void> {
    const from = await clientOf(first);
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    for (const place of along) {
      const { x, y } = await clientOf(place);
      await page.mouse.move(x, y, { steps: 8 });
    }
    await page.mouse.up();
    await settle();
  }
  /** Chooses an option of a list by the list's label. */
  async function choose(label: string, value: string): Promise<void> {
    await page.locator(`vscode-dropdown[aria-label='${label}']`).evaluate((list, to) => {
      (list as HTMLSelectElement).value = to;
      list.dispatchEvent(new Event("change"));
    }, value);
    await settle();
  }
  async function click(place: Place): Promise<void> {
    const { x, y } = await clientOf(place);
    await page.mouse.click(x, y);
    await settle();
  }

  return {
    start,
    settle,
    text,
    steps,
    ui,
    clientOf,
    screenAt,
    drag,
    stroke,
    choose,
    click,
    get page() {
      return page;
    },
    forgive: pages.forgive,
    open,
  };
}
