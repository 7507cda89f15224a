/** What the panel asks of a set of controls, held over both sets (docs/decisions/webview-controls.md). */
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { bundle, hasChromium, launch, open } from "./chromium.ts";
import { themeStyle } from "./themes.ts";

describe.skipIf(!hasChromium)("controls", () => {
  let browser: Browser;
  let page: Page;
  const warnings: string[] = [];

  beforeAll(async () => {
    const { script } = await bundle("tests/browser/kits.page.ts");
    browser = await launch();
    const policy =
      "default-src 'none'; style-src 'self' 'sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU='; script-src 'self'";
    page = await open(browser, {
      "/": { type: "text/html", body: "<!doctype html>" },
      "/kits": {
        type: "text/html",
        body: `<!doctype html><meta http-equiv="Content-Security-Policy" content="${policy}"><link rel="stylesheet" href="/theme.css">
<div id="native"></div><div id="toolkit"></div><script type="module" src="/page.js"></script>`,
      },
      "/page.js": { type: "text/javascript", body: script },
      "/theme.css": { type: "text/css", body: themeStyle("dark") },
    });
    page.on("console", (m) => (m.type() === "error" ? warnings.push(m.text()) : undefined));
    await page.goto("https://panel.invalid/kits");
    await page.waitForFunction(() => "slid" in window);
  });
  afterAll(() => browser.close());

  for (const name of ["native", "toolkit"] as const)
    describe(`the ${name} set`, () => {
      const events = () => page.evaluate((n) => window.controls[n].events.splice(0), name);

      it("a button is found by its name, and pressed by pointer and keyboard", async () => {
        const button = page.locator(`#${name}`).getByRole("button", { name: "Go" }).first();
        await button.click();
        await button.focus();
        await page.keyboard.press("Enter");
        await page.keyboard.press("Space");
        expect(await events()).toEqual(["go", "go", "go"]);
      });

      it("a button that is off does nothing", async () => {
        await page.evaluate((n) => window.controls[n].button.set({ enabled: false }), name);
        await page.locator(`#${name}`).getByRole("button", { name: "Go" }).first().click({ force: true });
        expect(await events()).toEqual([]);
        await page.evaluate((n) => window.controls[n].button.set({ enabled: true, label: "Go back" }), name);
        await page.locator(`#${name}`).getByRole("button", { name: "Go back" }).first().click();
        expect(await events()).toEqual(["go"]);
      });

      it("a button that stays in says which way it is, and an icon has a name", async () => {
        // On what has the button's role: the toolkit's element has none, the button within it has.
        const state = () =>
          page.evaluate((n) => {
            const { element } = window.controls[n].toggle;
            return (element.shadowRoot?.querySelector("button") ?? element).getAttribute("aria-pressed");
          }, name);
        expect(await state()).toBe("false");
        await page.locator(`#${name}`).getByRole("button", { name: "Show clipping" }).first().click();
        expect(await events()).toEqual(["toggle"]);
        await page.evaluate((n) => window.controls[n].toggle.set({ pressed: true }), name);
        expect(await state()).toBe("true");
        expect(
          await page.evaluate(
            (n) => window.controls[n].toggle.element.querySelector("svg")?.getAttribute("aria-hidden"),
            name,
          ),
        ).toBe("true");
      });

      it("a choice tells what was chosen, and not what the program sets", async () => {
        const set = (change: object) =>
          page.evaluate(([n, c]) => window.controls[n as "native"].choice.set(c as never), [name, change] as const);
        await page.evaluate((n) => window.controls[n].choice.element.focus(), name);
        await page.keyboard.press("ArrowDown");
        await page.keyboard.press("Enter");
        expect(await events()).toEqual(["b"]);
        await set({ value: "a" });
        await set({
          options: [
            ["a", "First"],
            ["b", "Second"],
            ["c", "Third"],
          ],
        });
        await set({ value: "c" });
        expect(await events()).toEqual([]);
        expect(await page.evaluate((n) => (window.controls[n].choice.element as HTMLSelectElement).value, name)).toBe(
          "c",
        );
        expect(await page.evaluate((n) => window.controls[n].choice.element.getAttribute("aria-label"), name)).toBe(
          "Which",
        );
      });

      it("a check box tells what was checked, and not what the program sets", async () => {
        await page.locator(`#${name} .check`).click();
        expect(await events()).toEqual(["true"]);
        await page.evaluate((n) => window.controls[n].check.set({ checked: false }), name);
        expect(await events()).toEqual([]);
        await page.locator(`#${name} .check`).click();
        expect(await events()).toEqual(["true"]);
      });
    });

  describe("the slider", () => {
    const slid = () => page.evaluate(() => window.slid.splice(0));

    it("shows each step and commits once, when the pointer lets go", async () => {
      const box = await page.locator(".slider input[type=range]").boundingBox();
      if (!box) throw new Error("no slider");
      await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
      await page.mouse.down();
      await page.mouse.move(box.x + box.width * 0.8, box.y + box.height / 2, { steps: 5 });
      const during = await slid();
      expect(during.length).toBeGreaterThan(2);
      expect(during.every((s) => s.startsWith("~"))).toBe(true);
      await page.mouse.up();
      const after = (await slid()).filter((s) => s.startsWith("="));
      expect(after).toHaveLength(1);
    });

    it("takes typed numbers beyond its ends, held to what is allowed", async () => {
      const number = page.locator(".slider input[type=number]");
      await number.fill("7.5");
      await number.press("Enter");
      await number.fill("99");
      await number.press("Enter");
      expect((await slid()).filter((s) => s.startsWith("="))).toEqual(["=7.5", "=10"]);
      expect(await number.inputValue()).toBe("10.0");
      expect(await page.locator(".slider input[type=range]").getAttribute("max")).toBe("10");
      expect(await page.locator(".slider input[type=range]").getAttribute("aria-valuetext")).toBe("10.0 stops");
    });
  });

  it("asks the page's policy for nothing", () => expect(warnings).toEqual([]));
});
