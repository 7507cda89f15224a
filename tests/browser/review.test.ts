/** The report as a person opens it: one file, from the disk, in a real browser. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Browser, Page } from "playwright-core";
import axe from "axe-core";
import sharp from "sharp";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Review, ReviewFrame, ReviewPicture } from "../../extension/review-report.ts";
import { pageOf } from "../../extension/work/review/page.ts";
import { bundle, hasChromium, launch } from "./chromium.ts";

const HOSTILE = `</script><script>document.title = "taken"</script><img src=x onerror="document.title='taken'">`;

async function picture(colour: string, width = 300, height = 200): Promise<ReviewPicture> {
  const bytes = await sharp({ create: { width, height, channels: 3, background: colour } })
    .png()
    .toBuffer();
  return { width, height, type: "png", bytes };
}

async function review(): Promise<Review> {
  const [red, green, blue] = await Promise.all(["#c00000", "#00c000", "#0000c0"].map((colour) => picture(colour)));
  const frame = (id: string, extra: Partial<ReviewFrame> = {}): ReviewFrame => ({
    id,
    status: "changed",
    looksDifferent: true,
    reframed: false,
    difference: { mean: 1.5, p95: 4.25, max: 9 },
    before: red!,
    after: green!,
    map: blue!,
    notes: [],
    ...extra,
  });
  const change = { group: "balance", kind: "changed", before: "+0.00 EV", after: "+0.33 EV", followers: [] } as const;
  return {
    before: { label: "main (1234567)", commit: "1234567", subject: HOSTILE },
    after: { label: "the working tree" },
    rendered: true,
    recipes: [
      {
        kind: "roll",
        file: "harbour/harbour.roll.yaml",
        title: HOSTILE,
        status: "changed",
        formattingOnly: false,
        changes: [
          {
            ...change,
            id: "a",
            frame: "07",
            name: "exposure",
            text: "exposure +0.00 → +0.33 EV",
            origin: "own value; was from the roll",
          },
          {
            ...change,
            id: "b",
            frame: "09",
            group: "notes",
            name: "note",
            before: "none",
            after: HOSTILE,
            text: "note",
          },
        ],
        frames: [
          frame("07", { title: HOSTILE }),
          frame("08", { status: "added", before: undefined, map: undefined, difference: undefined }),
          frame("09", { notes: ["The scan H0009.dng itself changed."] }),
          frame("10", { difference: { mean: 0.1, p95: 0.31, max: 0.6 } }),
          frame("11", { difference: { mean: 0, p95: 0, max: 0.2 } }),
        ],
        of: 5,
        impact: [],
        problems: [],
      },
    ],
  };
}

describe.skipIf(!hasChromium)("the report", () => {
  const folder = mkdtempSync(join(tmpdir(), "report-"));
  const pageErrors: string[] = [];
  let browser: Browser;
  let page: Page;
  beforeAll(async () => {
    const { script, style } = await bundle("webview/review/report.ts", "iife");
    writeFileSync(join(folder, "review.html"), pageOf(await review(), { script, style }));
    browser = await launch();
    page = await browser.newPage({ viewport: { width: 1000, height: 700 } });
    page.on("console", (message) => pageErrors.push(message.text()));
    page.on("pageerror", (error) => pageErrors.push(error.message));
    page.on("request", (request) => {
      if (!/^(file|data):/.test(request.url())) pageErrors.push(request.url());
    });
    await page.goto(pathToFileURL(join(folder, "review.html")).href);
  });
  afterAll(async () => {
    await browser?.close();
    rmSync(folder, { recursive: true, force: true });
  });

  /** The colour that the stage shows at a part of its width, as the letter of its strongest channel. */
  async function shown(x: number): Promise<"r" | "g" | "b"> {
    const box = await page.locator(".stage").boundingBox();
    if (!box) throw new Error("There is no stage.");
    const clip = { x: box.x + x * box.width, y: box.y + box.height / 2 + 40, width: 2, height: 2 };
    const { channels } = await sharp(await page.screenshot({ clip }))
      .removeAlpha()
      .stats();
    const means = channels.map((channel) => channel.mean);
    return (["r", "g", "b"] as const)[means.indexOf(Math.max(...means))]!;
  }
  const heading = (): Promise<string | null> => page.locator("h2").textContent();

  test("opens from the disk on the first frame that changed, without a complaint, and nothing of a recipe is markup", async () => {
    expect(await heading()).toBe(`Frame 07 ${HOSTILE}`);
    expect(await page.title()).toBe("Review: main (1234567) → the working tree");
    expect(pageErrors).toEqual([]);
    expect(await page.locator("img[src='x']").count()).toBe(0);
    expect(await page.locator(".details tbody tr").innerText()).toMatch(
      /exposure\s+\+0\.00 EV\s+\+0\.33 EV\s+own value; was from the roll/,
    );
    expect(await page.locator(".numbers").innerText()).toMatch(/mean\s*1\.50.*95 % below\s*4\.25.*at most\s*9\.00/s);
  });

  test("wipe, side by side, difference and blink, all by keys", async () => {
    expect([await shown(0.4), await shown(0.6)]).toEqual(["r", "g"]);
    for (let i = 0; i < 10; i++) await page.keyboard.press("ArrowRight");
    expect(await shown(0.6)).toBe("r");
    await page.keyboard.press("s");
    expect([await shown(0.25), await shown(0.75)]).toEqual(["r", "g"]);
    await page.keyboard.press("d");
    expect(await shown(0.5)).toBe("b");
    await page.keyboard.down("c");
    expect(await shown(0.5)).toBe("r");
    await page.keyboard.up("c");
    await page.keyboard.press("b");
    await page.keyboard.press("Space"); // stops
    const first = await shown(0.5);
    await page.keyboard.press("Space");
    expect(await shown(0.5)).toBe(first === "r" ? "g" : "r");
    await page.keyboard.press("w");
  });

  test("one zoom and one place for both pictures, kept from frame to frame", async () => {
    await page.keyboard.press("s");
    await page.keyboard.press("2");
    const places = (): Promise<string[]> =>
      page
        .locator(".pane > img:first-child")
        .evaluateAll((all) =>
          all.map((one) => (one as HTMLElement).style.transform + (one as HTMLElement).style.width),
        );
    const box = await page.locator(".pane").first().boundingBox();
    await page.mouse.move(box!.x + 200, box!.y + 200);
    await page.mouse.down();
    await page.mouse.move(box!.x + 150, box!.y + 180);
    await page.mouse.up();
    const [left, right] = await places();
    expect(left).toBe(right);
    expect(left).toContain("600px");
    await page.keyboard.press("ArrowDown");
    await page.keyboard.press("ArrowDown");
    expect(await heading()).toBe("Frame 09");
    expect(await places()).toEqual([left, right]);
    await page.keyboard.press("0");
  });

  test("what there is no picture of is said", async () => {
    expect(await page.locator(".note").innerText()).toBe("The scan H0009.dng itself changed.");
    await page.keyboard.press("ArrowUp");
    expect(await heading()).toBe("Frame 08");
    expect(await page.locator(".missing").first().innerText()).toBe("The frame is new.");
    await page.keyboard.press("d");
    expect(await page.locator(".missing").first().innerText()).toBe("The frame is new: there is nothing to compare.");
  });

  test("frames without a visible change are one row, which Enter unfolds and folds", async () => {
    await page.keyboard.press("w");
    await page.keyboard.press("ArrowDown");
    expect(await heading()).toBe("Frame 09");
    await page.keyboard.press("ArrowDown");
    expect(await heading()).toBe("No visible change: 2 frames");
    expect(await page.locator(".details tbody tr").allInnerTexts()).toEqual(["10\t0.31\t0.60", "11\t0.00\t0.20"]);
    const listed = (): Promise<string[]> => page.locator(".list .frame .id").allInnerTexts();
    expect(await listed()).toEqual(["07", "08", "09"]);
    await page.keyboard.press("ArrowDown"); // the last row
    expect(await heading()).toBe("No visible change: 2 frames");
    await page.keyboard.press("Enter");
    expect(await listed()).toEqual(["07", "08", "09", "10", "11"]);
    await page.keyboard.press("ArrowDown");
    expect(await heading()).toBe("Frame 10");
    expect(await page.locator(".details header .chip").innerText()).toBe("no visible change");
    // Folded by the pointer, the row takes the place of what it hides.
    await page.locator(".list .fold").click();
    expect(await listed()).toEqual(["07", "08", "09"]);
    expect(await heading()).toBe("No visible change: 2 frames");
    for (let i = 0; i < 2; i++) await page.keyboard.press("ArrowUp");
    expect(await heading()).toBe("Frame 08");
  });

  test("has no barrier that axe knows of, in every way to compare", async () => {
    await page.evaluate(axe.source);
    for (const [key, colorScheme] of [
      ["w", "light"],
      ["s", "dark"],
      ["b", "light"],
      ["d", "dark"],
    ] as const) {
      await page.emulateMedia({ colorScheme });
      await page.keyboard.press(key);
      const { violations } = await page.evaluate(() =>
        (window as unknown as { axe: { run(): Promise<axe.AxeResults> } }).axe.run(),
      );
      expect([key, violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html)])]).toEqual([key, []]);
    }
  });

  test("the list is a listbox that names its row, the keys can be looked up, and nothing complained", async () => {
    expect(await page.locator(".list [aria-selected=true]").count()).toBe(1);
    const id = await page.locator(".list").getAttribute("aria-activedescendant");
    expect(await page.locator(`#${id}`).getAttribute("aria-selected")).toBe("true");
    await page.keyboard.press("?");
    expect(await page.locator("dialog").innerText()).toContain("wipe, side by side, blink, difference");
    await page.keyboard.press("Escape");
    expect(pageErrors).toEqual([]);
  });
});
