/** Every word of the review can be translated: with marks in their place, no word is left. */
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { bundle, hasChromium, launch, open } from "./chromium.ts";
import { lettersLeft } from "./letters.ts";

describe.skipIf(!hasChromium)("the review's words", () => {
  let browser: Browser;
  let page: Page;

  beforeAll(async () => {
    const { script } = await bundle("tests/browser/review-words.page.ts");
    browser = await launch();
    page = await open(browser, {
      "/": {
        type: "text/html",
        body: "<!doctype html><body><div id=review></div><script type=module src=/page.js></script>",
      },
      "/page.js": { type: "text/javascript", body: script },
    });
    await page.waitForFunction(() => "openWords" in window);
  });
  afterAll(() => browser.close());

  it("all follow the editor's language", async () => {
    await page.evaluate(() => window.openWords(false));
    // Untranslated there are plenty, so that the check is worth something. A unit and keys are signs, not words.
    const signs = "ΔE00";
    expect((await page.evaluate(lettersLeft, signs)).length).toBeGreaterThan(30);
    await page.evaluate(() => window.openWords(true));
    const count = await page.evaluate(() => window.entries);
    expect(count).toBe(18);
    for (let entry = 0; entry < count; entry++)
      for (const mode of ["wipe", "side", "blink", "difference"] as const) {
        await page.evaluate(([e, m]) => window.show(e, m), [entry, mode] as const);
        expect([entry, mode, await page.evaluate(lettersLeft, signs)]).toEqual([entry, mode, []]);
      }
  });
});
