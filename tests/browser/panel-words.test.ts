/** Every word of the panel can be translated: with marks in their place, no word is left. */
import { describe, expect, it } from "vitest";
import { hasChromium } from "./chromium.ts";
import { lettersLeft } from "./letters.ts";
import { rollText } from "./open-panel.ts";
import { usePanel } from "./panel-driver.ts";

/** What comes from the recipe and the scans stays as it is there. */
const DATA = "(?:H0|MISSING)\\d+\\.dng|\\S+\\.(?:roll|stock)\\.yaml";

describe.skipIf(!hasChromium)("the panel's words", () => {
  const panel = usePanel();
  const left = () => panel.page.evaluate(lettersLeft, DATA);

  it("are found where they are not translated, so that the check is worth something", async () => {
    await panel.start();
    expect((await left()).length).toBeGreaterThan(80);
  });

  it("all follow the editor's language", async () => {
    const spots = `
    spots: [[0.3, 0.3, 0.004]]
    positive: { curve: [[25, 23], [75, 78]] }`;
    const text = rollText(3)
      .replace(/(H0001\.dng.*\n.*)/, `$1${spots}`)
      .replace("blank: LIGHT.dng", "blank: LIGHT.dng\n  spots: [[0.5, 0.5, 0.003]]");
    await panel.start({ marked: true, text });
    expect(await left()).toEqual([]);
    // Every tool, every view, every comparison, with what each of them says.
    for (const tool of ["base", "neutral", "grey", "crop", "spots", "pin"]) {
      await panel.ui({ tool });
      await panel.settle();
      expect([tool, await left()]).toEqual([tool, []]);
    }
    // What the survey proposes, with a spot that is skipped.
    await panel.page.evaluate(async () => await window.panel.session.client.request("survey", {}));
    const proposals = panel.page.locator("[data-section=proposals]");
    await proposals.locator(":scope > ul > li button").nth(1).click();
    await expect.poll(() => proposals.locator(".over li").count()).toBe(1);
    await proposals.locator(".over summary").click();
    expect(await left()).toEqual([]);
    await panel.click([0.5, 0.5]);
    await panel.ui({ tool: "neutral" });
    await panel.click([0.5, 0.5]);
    await panel.ui({ tool: "look", scope: "roll", compare: "wipe", warn: true });
    await panel.page.locator(".toolbar vscode-button.quiet").nth(8).click();
    await panel.settle();
    expect(await left()).toEqual([]);
    await panel.page.keyboard.press("PageDown");
    await panel.page.waitForFunction(() => window.panel.session.store.get().current);
    await panel.settle();
    expect(await left()).toEqual([]);
  });

  it("follow in what is said of a problem, too", async () => {
    await panel.start({ marked: true, text: rollText(3).replace("H0002", "MISSING2") });
    await panel.page.evaluate(() => window.panel.session.select("02"));
    await panel.settle();
    expect(await besideProblems()).toEqual([]);
    await panel.page.evaluate(
      async (t) => await window.fake.type(t),
      rollText(3).replace("exposure: 0.2", "exposure: wide"),
    );
    await panel.settle();
    expect(await panel.page.locator(".notices .error").count()).toBe(1);
    expect(await besideProblems()).toEqual([]);
  });

  /** A problem's own sentence is the recipe's; the line around it is the panel's. */
  async function besideProblems(): Promise<string[]> {
    const sentences = await panel.page.evaluate(
      () => window.panel.session.store.get().roll?.problems.map((p) => p.message) ?? [],
    );
    expect(sentences.length).toBeGreaterThan(0);
    const own = sentences.map((sentence) => sentence.replace(/[.*+?^${}()|[\]\\]/g, "\\$&"));
    return await panel.page.evaluate(lettersLeft, [DATA, ...own].join("|"));
  }
});
