/** The panel for those who see or point little: names, states and units in the accessibility tree, and what axe finds. */
import axe from "axe-core";
import { describe, expect, it } from "vitest";
import { hasChromium } from "./chromium.ts";
import { rollText } from "./open-panel.ts";
import { usePanel } from "./panel-driver.ts";

interface Node {
  readonly role?: { readonly value?: string };
  readonly name?: { readonly value?: string };
  readonly ignored?: boolean;
  readonly properties?: readonly { readonly name: string; readonly value: { readonly value?: unknown } }[];
}

const OWN = "\n    spots: [[0.3, 0.3, 0.004]]\n    positive: { contrast: 1.4, curve: [[25, 23], [75, 78]] }";
const text = rollText(4).replace(/(H0001\.dng.*\n.*)/, `$1${OWN}`);

describe.skipIf(!hasChromium)("the panel in the accessibility tree", () => {
  const panel = usePanel();

  async function tree(): Promise<readonly Node[]> {
    const session = await panel.page.context().newCDPSession(panel.page);
    await session.send("Accessibility.enable");
    const { nodes } = (await session.send("Accessibility.getFullAXTree")) as { nodes: readonly Node[] };
    return nodes.filter(({ ignored }) => !ignored);
  }
  const propertyOf = (node: Node | undefined, name: string): unknown =>
    node?.properties?.find((one) => one.name === name)?.value.value;

  it("has toggles with their state, sliders with their unit, and sections as headings", async () => {
    await panel.start({ text });
    await panel.ui({ view: "density" });
    await panel.settle();
    const nodes = await tree();
    const named = (role: string, name: string | RegExp): Node | undefined =>
      nodes.find(
        (node) =>
          node.role?.value === role &&
          (typeof name === "string" ? node.name?.value === name : name.test(node.name?.value ?? "")),
      );
    expect(propertyOf(named("button", "Density") ?? named("ToggleButton", "Density"), "pressed")).toBe("true");
    expect(propertyOf(named("button", "Print") ?? named("ToggleButton", "Print"), "pressed")).toBe("false");
    // The inspector's tree gives a native slider's number; what is read is the element's own text.
    const spoken = (key: string) =>
      panel.page.locator(`[data-control=${key}] input[type=range]`).getAttribute("aria-valuetext");
    expect(named("slider", "Exposure")).toBeDefined();
    expect(await Promise.all(["exposure", "magenta", "black"].map(spoken))).toEqual(["0.20 EV", "0.0 CC", "0.5 L*"]);
    const titles = ["Exposure and filtration", "Tone", "Framing", "Spots", "Readings"];
    // A style sets them in capitals, and the tree has what is seen.
    expect(titles.filter((title) => named("heading", new RegExp(`^${title}$`, "i")) === undefined)).toEqual([]);
    expect(named("application", "Picture of frame 01")).toBeDefined();
    expect(named("button", "frame: Contrast")).toBeDefined();
    expect(named("button", "roll: Exposure")).toBeDefined();
  });

  it("gives every button a name of its own", async () => {
    await panel.start({ text });
    await panel.settle();
    const names = (await tree())
      .filter(({ role }) => role?.value === "button" || role?.value === "ToggleButton")
      .map(({ name }) => name?.value ?? "");
    expect(names.filter((name) => name === "")).toEqual([]);
    expect(names.filter((name, i) => names.indexOf(name) !== i)).toEqual([]);
  });

  it("has one stop of the Tab key for the bar, and arrow keys within", async () => {
    await panel.start({ text });
    await panel.page.keyboard.press("Tab");
    const focused = () =>
      panel.page.evaluate(() => {
        const at = document.activeElement;
        return (at?.getAttribute("aria-label") ?? at?.textContent ?? "").trim();
      });
    // The first frame has none before it.
    expect(await focused()).toMatch(/^Next frame/);
    await panel.page.keyboard.press("ArrowRight");
    expect(await focused()).toBe("Print");
    await panel.page.keyboard.press("End");
    expect(await focused()).toMatch(/^Keys of the preview/);
    await panel.page.keyboard.press("Tab");
    expect(await focused()).toBe("Picture of frame 01");
    await panel.page.keyboard.press("Shift+Tab");
    expect(await focused()).toMatch(/^Keys of the preview/);
  });

  it.each([
    ["dark", 1280, 720],
    ["light", 616, 620],
    ["contrast", 1500, 950],
  ] as const)("has no barrier that axe knows of, in %s at %i × %i", async (theme, width, height) => {
    await panel.start({ theme, viewport: { width, height }, text });
    await panel.page.evaluate(() => window.panel.session.client.request("survey", {}));
    await panel.ui({ compare: "wipe", warn: true, pins: { "01": [[0.4, 0.4]] } });
    await panel.settle();
    // Read into the page as a value: its policy loads no further script.
    await panel.page.evaluate(axe.source);
    const violations = () =>
      panel.page.evaluate(async () => {
        const { axe: run } = window as unknown as {
          axe: { run(): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> };
        };
        return (await run.run()).violations.map(
          ({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(" | ")}`,
        );
      });
    expect(await violations()).toEqual([]);
    for (const key of ["?", "s"]) {
      await panel.page.locator(".stage").focus();
      await panel.page.keyboard.press(key);
      await panel.page.locator("dialog[open]").waitFor();
      expect(await violations()).toEqual([]);
      await panel.page.keyboard.press("Escape");
    }
  });
});
