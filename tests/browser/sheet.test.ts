/** The roll sheet in a real browser: choosing, changing, matching and comparing frames, with the pointer and with keys. */
import axe from "axe-core";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { hasChromium } from "./chromium.ts";
import { openSheet, type OpenSheetOptions } from "./open-sheet.ts";
import { rollText } from "./open-panel.ts";
import { usePage } from "./use-page.ts";
import type { ThemeName } from "./themes.ts";

describe.skipIf(!hasChromium)("the roll sheet", () => {
  const pages = usePage();
  let page: Page;

  async function start(options: OpenSheetOptions = {}): Promise<void> {
    page = await pages.show((browser) => openSheet(browser, options));
    await page.waitForFunction(() => document.querySelectorAll(".sheet-tile.pictured").length > 8);
  }
  const text = (): Promise<string> => page.evaluate(() => window.sheetHost.text());
  const steps = (): Promise<number> => page.evaluate(() => window.sheetHost.steps());
  const chosen = (): Promise<string[]> =>
    page.evaluate(() => [...window.sheet.session.store.get().selection.chosen].toSorted());
  const tile = (id: string) => page.locator(`[data-frame="${id}"]`);
  const button = (name: string) => page.locator(".side vscode-button", { hasText: name }).first();
  /** A tile's picture on the canvas of its row: its sides in pixels, and the mean of its values, 0 … 255. */
  const pictureOf = (id: string): Promise<{ width: number; height: number; mean: number }> =>
    page.evaluate((frame) => {
      const of = document.querySelector<HTMLElement>(`[data-frame="${frame}"]`)!;
      const canvas = of.closest(".sheet-row")!.querySelector("canvas")!;
      const [room, drawn] = [of.querySelector(".room")!.getBoundingClientRect(), canvas.getBoundingClientRect()];
      const [left, top] = [room.left - drawn.left, room.top - drawn.top].map(Math.round);
      const { data, width } = canvas.getContext("2d")!.getImageData(left, top, room.width, room.height);
      const columns = new Set<number>();
      const rows = new Set<number>();
      let sum = 0;
      for (let k = 0; k < data.length; k += 4) {
        if (data[k + 3] === 0) continue; // no picture there
        columns.add((k / 4) % width);
        rows.add(Math.floor(k / 4 / width));
        sum += data[k]! + data[k + 1]! + data[k + 2]!;
      }
      return { width: columns.size, height: rows.size, mean: sum / (3 * columns.size * rows.size) };
    }, id);
  const brightness = async (id: string): Promise<number> => (await pictureOf(id)).mean;
  const until = (condition: () => Promise<boolean>) => expect.poll(condition, { timeout: 15_000 }).toBe(true);
  /** Presses a key on a slider of a value, as often as told. */
  async function press(name: string, key: string, times: number): Promise<void> {
    await page.locator(`[data-control="${name}"] .slider:not([hidden]) input[type="range"]`).focus();
    for (let k = 0; k < times; k++) await page.keyboard.press(key);
  }

  it("shows the frames as positives, and holds only what is near the view", async () => {
    await start({ text: rollText(200) });
    expect(await page.locator(".sheet-tile:not([hidden])").count()).toBeLessThan(80);
    expect(await page.locator(".count").innerText()).toBe("200 frames");
    // Its proportions are those of the crop: 3 : 2.
    const size = await pictureOf("01");
    expect(size.width / size.height).toBeCloseTo(1.5, 1);
    await page.locator(".grid").evaluate((grid) => (grid.scrollTop = grid.scrollHeight));
    await tile("200").waitFor();
    expect(await page.locator(".sheet-tile:not([hidden])").count()).toBeLessThan(80);
    // The tile with the focus is still there, so that the keyboard is not lost.
    expect(await tile("01").count()).toBe(1);
  });

  it("keeps pictures and the keyboard with their frames where the order changes", async () => {
    await start();
    await tile("03").click();
    await until(async () => (await pictureOf("03")).width > 0 && (await pictureOf("05")).width > 0);
    const [third, fifth] = [await pictureOf("03"), await pictureOf("05")];
    await page.evaluate(() => {
      const { session } = window.sheet;
      const { roll } = session.store.get();
      if (!roll) throw new Error("There is no roll.");
      session.events.roll?.({ ...roll, frames: roll.frames.toReversed() });
    });
    await expect.poll(() => tile("03").getAttribute("aria-posinset")).toBe("34");
    await page.waitForFunction(() => document.activeElement?.getAttribute("data-frame") === "03");
    expect(await pictureOf("03")).toEqual(third);
    await page.locator(".grid").evaluate((grid) => (grid.scrollTop = grid.scrollHeight));
    await until(async () => (await tile("05").count()) > 0 && (await pictureOf("05")).width > 0);
    expect(await pictureOf("05")).toEqual(fifth);
  });

  it("is chosen from by click, Ctrl, Shift, keys and rectangle", async () => {
    await start();
    await tile("02").click();
    await expect.poll(chosen).toEqual(["02"]);
    await tile("04").click({ modifiers: ["Shift"] });
    await tile("09").click({ modifiers: ["ControlOrMeta"] });
    await expect.poll(chosen).toEqual(["02", "03", "04", "09"]);
    expect(await tile("03").getAttribute("aria-selected")).toBe("true");
    await page.keyboard.press("Escape");
    await expect.poll(chosen).toEqual([]);
    await page.keyboard.press("Home");
    await page.keyboard.press("Space");
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("Shift+ArrowDown");
    const columns = await page.evaluate(() => window.sheet.grid.layout().columns);
    await expect.poll(chosen).toHaveLength(columns + 2);
    await page.keyboard.press("Control+a");
    await expect.poll(chosen).toHaveLength(36);
    const focused = () => page.evaluate(() => (document.activeElement as HTMLElement).dataset["frame"]);
    await expect.poll(focused).toBe(String(columns + 2).padStart(2, "0"));
    // A rectangle from the gap beside the first tile over two tiles of two rows.
    const [a, b] = [
      (await tile("01").boundingBox())!,
      (await tile(String(columns + 2).padStart(2, "0")).boundingBox())!,
    ];
    await page.mouse.move(a.x - 3, a.y - 3);
    await page.mouse.down();
    await page.mouse.move(b.x + 20, b.y + 20, { steps: 4 });
    await page.mouse.up();
    await expect
      .poll(chosen)
      .toEqual(["01", "02", ...[1, 2].map((k) => String(columns + k).padStart(2, "0"))].toSorted());
  });

  it("changes values by an amount: shown at once, one edit, one undo", async () => {
    await start();
    await tile("01").click();
    await tile("03").click({ modifiers: ["Shift"] });
    const before = await brightness("02");
    await page.locator('[data-control="exposure"] .slider:not([hidden]) input[type="number"]').fill("1");
    // While it is typed the tiles show it, and the text does not have it.
    await until(async () => (await brightness("02")) > before + 4);
    expect(await steps()).toBe(0);
    await page.keyboard.press("Enter");
    await until(async () => (await steps()) === 1);
    const after = await text();
    expect([...after.matchAll(/exposure: 1\.2\b/g)]).toHaveLength(3);
    expect(after).toContain("exposure: 0.2 # the whole roll is a little thin");
    await tile("01").focus();
    await page.keyboard.press("Control+z");
    await until(async () => !(await text()).includes("1.2"));
  });

  it("adds what keys change while the text is still being written", async () => {
    await start();
    await page.evaluate(() => {
      // Every answer and every event of the host comes half a second late.
      const { session } = window.sheet;
      const receive = session.client.receive.bind(session.client);
      Object.assign(session.client, {
        receive: (message: unknown) => setTimeout(() => receive(message as never), 500),
      });
    });
    await tile("03").click();
    const range = page.locator('[data-control="exposure"] .slider:not([hidden]) input[type="range"]');
    await range.focus();
    for (let k = 0; k < 3; k++) await page.keyboard.press("ArrowRight");
    await until(async () => (await steps()) > 0);
    // The first are written, and the sheet is not told yet.
    for (let k = 0; k < 4; k++) await page.keyboard.press("ArrowRight");
    await expect.poll(text, { timeout: 15_000 }).toMatch(/"03":[^"]*exposure: 0\.27\b/);
  });

  it("changes the roll's own value where the whole roll is meant", async () => {
    await start();
    await tile("05").click();
    await page.keyboard.press("Control+a");
    await press("exposure", "ArrowRight", 30);
    // On a slow machine a pause between two presses ends a step: there may be several.
    await expect.poll(text, { timeout: 15_000 }).toContain("exposure: 0.5 # the whole roll is a little thin");
    expect(await text()).not.toContain("positive: {");
  });

  it("keeps, rejects and ranks by key, and shows what is asked for", async () => {
    await start({ counts: { "07": 2 } });
    await tile("02").click();
    await page.keyboard.press("k");
    await until(async () => (await text()).includes("choice: keep"));
    await tile("03").click();
    await page.keyboard.press("r");
    await page.keyboard.press("+");
    await until(async () => (await text()).includes("rank: 1"));
    const label = "Frame 03, H0003.dng, reject, rank 1 of 5";
    await until(async () => (await tile("03").getAttribute("aria-label")) === label);
    await page.evaluate(() => window.sheet.session.ui({ order: "findings" }));
    await until(async () => (await page.locator('.sheet-tile[aria-posinset="1"]').getAttribute("data-frame")) === "07");
    const filter = await page.evaluate(() => window.sheet.session.store.get().ui.filter);
    await page.evaluate((f) => window.sheet.session.ui({ filter: { ...f, choice: "not-reject" } }), filter);
    await until(async () => (await page.locator(".count").innerText()).startsWith("35 of 36 frames"));
    await expect.poll(() => tile("03").count(), { timeout: 15_000 }).toBe(0);
  });

  it("shares a crop, and asks first where others would be lost", async () => {
    const own = rollText(12).replace(
      /(H0002\.dng\n) {4}area: .*/,
      "$1    area: { left: 0.2, top: 0.2, width: 0.5, height: 0.5 }",
    );
    await start({ text: own, measured: ["01", "03"] });
    await tile("04").click();
    await tile("01").click({ modifiers: ["ControlOrMeta"] });
    await tile("02").click({ modifiers: ["ControlOrMeta"] });
    await button("Same crop…").click();
    await until(async () => (await steps()) === 1);
    expect(await page.evaluate(() => window.sheetHost.questions)).toEqual([
      "The crop of frame 02 goes to 2 frames. 2 of them have a crop of their own, 1 of these as it was measured on the scan.",
    ]);
    expect([...(await text()).matchAll(/left: 0\.2,/g)]).toHaveLength(3);
  });

  it("leaves crops alone where the answer is no", async () => {
    const own = rollText(12).replace(
      /(H0002\.dng\n) {4}area: .*/,
      "$1    area: { left: 0.2, top: 0.2, width: 0.5, height: 0.5 }",
    );
    await start({ text: own, accepts: false });
    await tile("04").click();
    await tile("02").click({ modifiers: ["ControlOrMeta"] });
    await button("Same crop…").click();
    await until(async () => (await page.evaluate(() => window.sheetHost.questions.length)) === 1);
    expect(await steps()).toBe(0);
  });

  it("copies a frame's values to others", async () => {
    const own = rollText(12).replace(/(H0002\.dng\n)/, "$1    positive: { exposure: -1 }\n");
    await start({ text: own });
    await tile("02").click();
    await button("Copy values…").click();
    await tile("04").click();
    await tile("05").click({ modifiers: ["Shift"] });
    await button("Paste values").click();
    await until(async () => [...(await text()).matchAll(/exposure: -1\b/g)].length === 3);
    expect(await steps()).toBe(1);
  });

  it("matches frames to one: shown before it is written, then one edit", async () => {
    // The wedge's frames are turned versions of one another: what one has too much, the match takes away.
    const own = rollText(12).replace(
      /(H0003\.dng\n)/,
      "$1    positive: { exposure: -1.5, filtration: { magenta: 25 } }\n",
    );
    await start({ text: own });
    await tile("03").click();
    await tile("02").click({ modifiers: ["ControlOrMeta"] });
    const [wanted, before] = [await brightness("02"), await brightness("03")];
    expect(Math.abs(before - wanted)).toBeGreaterThan(15);
    await page.keyboard.press("m");
    const apply = page.locator(".offer vscode-button", { hasText: "Apply" });
    await apply.waitFor();
    expect(await page.locator(".offer p").innerText()).toContain("Shown, not written: 1 frame matched to frame 02.");
    await until(async () => Math.abs((await brightness("03")) - wanted) < 4);
    expect(await steps()).toBe(0);
    // What the match does not rest on may change meanwhile; what it rests on may not.
    await page.keyboard.press("k");
    await until(async () => (await text()).includes("choice: keep"));
    expect(await apply.isVisible()).toBe(true);
    await page.evaluate((now) => window.sheetHost.type(now), (await text()).replace("magenta: 25", "magenta: 20"));
    await apply.waitFor({ state: "hidden" });
    const focused = () => page.evaluate(() => (document.activeElement as HTMLElement).dataset["frame"]);
    await expect.poll(focused).toBe("02");
    await page.keyboard.press("Control+z");
    await until(async () => (await text()).includes("magenta: 25"));
    await page.waitForTimeout(300); // the sheet is told of it
    await page.keyboard.press("m");
    await apply.waitFor();
    await page.keyboard.press("Escape");
    await until(async () => Math.abs((await brightness("03")) - before) < 1);
    await page.keyboard.press("Control+z");
    await until(async () => !(await text()).includes("choice: keep"));
    expect(await steps()).toBe(2);
    await tile("02").focus();
    await page.keyboard.press("m");
    await apply.waitFor();
    await page.keyboard.press("Enter");
    await until(async () => (await steps()) === 1);
    const [, exposure, magenta] =
      /H0003\.dng\n {4}positive: \{ exposure: (\S+), filtration: \{ magenta: (\S+?),? /.exec(await text())!;
    expect(Math.abs(Number(exposure) - 0.2)).toBeLessThan(0.1);
    expect(Math.abs(Number(magenta))).toBeLessThan(3);
  });

  it("shows frames side by side with one zoom for all", async () => {
    await start();
    await tile("01").click();
    await tile("03").click({ modifiers: ["Shift"] });
    await page.keyboard.press("s");
    await until(async () => (await page.locator(".cell canvas.picture").count()) === 3);
    const shot = async (index: number): Promise<Buffer> => await page.locator(".cell .stage").nth(index).screenshot();
    await page.waitForTimeout(1500);
    const before = [await shot(0), await shot(2)];
    await page.locator(".cell .stage").first().focus();
    await page.keyboard.press("+");
    await page.keyboard.press("+");
    await until(async () => !(await shot(0)).equals(before[0]!) && !(await shot(2)).equals(before[1]!));
    await page.locator(".cell vscode-button", { hasText: "Reject" }).nth(1).click();
    await until(async () => (await text()).includes("choice: reject"));
    await page.keyboard.press("Escape");
    await until(async () => (await page.locator(".cell:visible").count()) === 0);
    await until(async () => await page.evaluate(() => document.activeElement?.closest(".sheet-tile") !== null));
    expect(await steps()).toBe(1);
  });

  it("shows the roll as an earlier revision has it", async () => {
    await start();
    const before = await brightness("01");
    await page.locator(".bar vscode-button", { hasText: "Earlier revision…" }).click();
    await until(async () => (await brightness("01")) < before - 10);
    expect(await tile("05").getAttribute("aria-label")).toContain("not in the revision shown");
    await page.locator(".bar .check", { hasText: "As in v1" }).click();
    await until(async () => Math.abs((await brightness("01")) - before) < 1);
    expect(await steps()).toBe(0);
  });

  it.each([
    ["dark", 1280, 720],
    ["light", 1500, 950],
    ["contrast", 1280, 720],
  ] as const)("has no barrier that axe knows of, in %s at %i × %i", async (theme: ThemeName, width, height) => {
    await start({ theme, viewport: { width, height }, counts: { "03": 1 } });
    await tile("02").click();
    await tile("04").click({ modifiers: ["Shift"] });
    await page.keyboard.press("m");
    await page.locator(".offer").waitFor();
    // Read into the page as a value: its policy loads no further script.
    await page.evaluate(axe.source);
    const violations = await page.evaluate(async () => {
      const run = (
        window as unknown as { axe: { run(): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> } }
      ).axe;
      return (await run.run()).violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`);
    });
    expect(violations).toEqual([]);
  });

  it("says why a frame has no picture", async () => {
    await start({ text: rollText(12).replace("H0002.dng", "BROKEN.dng") });
    await until(async () => (await tile("02").getAttribute("title")) !== "");
    expect(await tile("02").getAttribute("title")).toContain("ends too early");
  });
});
