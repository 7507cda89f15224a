/**
 * The panel's shader against the executor that writes the files, in a real browser: never more than 1/255 apart
 * (the bar of issue "Live preview"), on random recipes over the whole range of transmittance.
 */
import fc from "../properties.ts";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { bundle, hasChromium, launch, open } from "./chromium.ts";
import type { Apart, Case, ProofsApart } from "./executors.page.ts";
import { anyAreas, anyLook } from "./looks.ts";

describe.skipIf(!hasChromium)("GPU against CPU", () => {
  let browser: Browser;
  let page: Page;

  beforeAll(async () => {
    const { script } = await bundle("tests/browser/executors.page.ts");
    browser = await launch();
    page = await open(browser, {
      "/": { type: "text/html", body: "<!doctype html><script type=module src=/page.js></script>" },
      "/page.js": { type: "text/javascript", body: script },
    });
    await page.waitForFunction(() => "compareExecutors" in window);
  });
  afterAll(() => browser.close());

  const compare = (codes: number[], width: number, cases: Case[]): Promise<Apart[]> =>
    page.evaluate(([c, w, all]) => window.compareExecutors(c, w, all), [codes, width, cases] as const);

  /** Greys and colours over the whole code range, thick with what film has, with both ends. */
  const codes = Array.from({ length: 96 * 64 * 3 }, (_, i) => {
    const noise = Math.imul(i + 1, 2654435761) >>> 0;
    if (i < 6) return i < 3 ? 0 : 65535;
    if (i < 6000) return noise % 65536;
    return 30000 + (noise % 14000);
  });

  it("agrees within 1/255 on 120 random looks, in every space", async () => {
    const looks = fc.sample(anyLook, { numRuns: 120, seed: 4 });
    const spaces = ["srgb", "p3", "adobe", "romm"] as const;
    const cases = looks.map((look, i): Case => ({
      look,
      space: spaces[i % 4],
      view: "print",
      weights: [0.3, 0.5, 0.2],
    }));
    const all = await compare(codes, 96, cases);
    expect(Math.max(...all.map((a) => a.worst))).toBeLessThanOrEqual(1);
    // The check is only worth something on pictures that have tones.
    expect(all.filter((a) => a.distinct > 60).length).toBeGreaterThan(60);
    expect(all.reduce((sum, a) => sum + a.differing, 0) / all.length).toBeLessThan(0.02);
  });

  it("agrees within 1/255 where areas of local exposure lie, turned, mirrored and straightened", async () => {
    const looks = fc.sample(anyLook, { numRuns: 60, seed: 6 });
    const areas = fc.sample(anyAreas, { numRuns: 60, seed: 7 });
    const cases = looks.map((look, i): Case => ({
      look: { ...look, local: areas[i] },
      space: "srgb",
      view: "print",
      framing: {
        area: { left: 0.1, top: 0.05, width: 0.8, height: 0.9, tilt: (i % 7) - 3 },
        turn: ([0, 90, 180, 270] as const)[i % 4],
        mirror: i % 3 === 0,
      },
    }));
    const all = await compare(codes, 96, cases);
    expect(Math.max(...all.map((a) => a.worst))).toBeLessThanOrEqual(1);
    const plain = await compare(
      codes,
      96,
      looks.map((look): Case => ({ look, space: "srgb", view: "print" })),
    );
    // Areas do something: most pictures differ from those without any.
    expect(all.filter((a, i) => a.mean !== plain[i].mean).length).toBeGreaterThan(30);
  });

  it("agrees within 1/255 on soft proofs, with areas too, and on what their paper has not", async () => {
    const looks = fc.sample(anyLook, { numRuns: 60, seed: 8 });
    const areas = fc.sample(anyAreas, { numRuns: 60, seed: 9 });
    const framing = {
      area: { left: 0.1, top: 0.05, width: 0.8, height: 0.9, tilt: 1 },
      turn: 0,
      mirror: false,
    } as const;
    const cases = looks.map((look, i): Case => {
      const shared = { space: "romm", view: "print", weights: [0.3, 0.5, 0.2] } as const;
      return i % 2 ? { ...shared, look: { ...look, local: areas[i] }, framing } : { ...shared, look };
    });
    const all: ProofsApart[] = await page.evaluate(([c, all]) => window.compareProofs(c, 96, all), [
      codes,
      cases,
    ] as const);
    expect(Math.max(...all.map(({ worst }) => worst))).toBeLessThanOrEqual(1);
    expect(all.filter(({ distinct }) => distinct > 60).length).toBeGreaterThan(30);
    // Colours at a mark's limit may fall on either side of it.
    expect(Math.max(...all.map(({ differing }) => differing))).toBeLessThan(0.01);
    expect(all.filter(({ marked }) => marked > 0.1 && marked < 0.9).length).toBeGreaterThan(10);
  });

  it("agrees on the negative and on the density view", async () => {
    const looks = fc.sample(anyLook, { numRuns: 20, seed: 5 });
    const cases = looks.flatMap((look): Case[] => [
      { look, space: "srgb", view: "negative" },
      { look, space: "p3", view: "density" },
    ]);
    const all = await compare(codes, 96, cases);
    expect(Math.max(...all.map((a) => a.worst))).toBeLessThanOrEqual(1);
    expect(Math.min(...all.map((a) => a.distinct))).toBeGreaterThan(100);
  });
});
