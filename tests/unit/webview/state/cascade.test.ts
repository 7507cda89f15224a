import { describe, expect, it } from "vitest";
import { placeText, provenance } from "../../../../webview/state/cascade.ts";
import { allowed, CONTROLS, controlsFor, accessibleText } from "../../../../webview/state/controls.ts";
import * as edits from "../../../../webview/state/edits.ts";
import { FRESH, restored } from "../../../../webview/state/ui-state.ts";

const at = (value: unknown, line: number) => ({ value, file: "a.roll.yaml", line });

const NO_HUE = { hue: 60, strength: 0 };

describe("where a value stands", () => {
  it("the nearest level wins, and a reset shows the one behind it", () => {
    const cascade = { frame: at(0.33, 20), roll: at(0.2, 9), stock: at(0.1, 3), fallback: 0 };
    expect(provenance(cascade, "frame")).toMatchObject({
      value: 0.33,
      level: "frame",
      own: true,
      inherited: 0.2,
      inheritedLevel: "roll",
      overridden: false,
    });
    expect(provenance(cascade, "roll")).toMatchObject({
      value: 0.2,
      level: "roll",
      own: true,
      inherited: 0.1,
      inheritedLevel: "stock",
      overridden: true,
    });
  });

  it("is inherited, or the default", () => {
    expect(provenance({ stock: at(1.5, 3), fallback: 1.35 }, "frame")).toMatchObject({
      value: 1.5,
      level: "stock",
      own: false,
    });
    const none = provenance({ fallback: 1.35 }, "roll");
    expect(none).toMatchObject({ value: 1.35, level: "default", own: false, inherited: 1.35, overridden: false });
    expect(placeText(provenance({ roll: at(1, 9), fallback: 0 }, "frame"))).toBe("From the roll: a.roll.yaml, line 9");
  });
});

describe("controls", () => {
  it("read and write the same place of a look", () => {
    const look = {
      film: "colour-negative" as const,
      base: [0, 0, 0] as const,
      gamma: [0.5, 0.5, 0.5] as const,
      unmix: [
        [1, 0, 0],
        [0, 1, 0],
        [0, 0, 1],
      ] as const,
      colour: [
        [1, 0, 0],
        [0, 1, 0],
        [0, 0, 1],
      ] as const,
      exposure: 0,
      filtration: { cyan: 0, magenta: 0, yellow: 0 },
      tone: { contrast: 1, toe: 0, shoulder: 0, black: 0, points: [] },
      saturation: 1,
      toning: { shadows: NO_HUE, highlights: NO_HUE, paper: NO_HUE },
    };
    const controls = CONTROLS.filter(({ version }) => version !== 2);
    for (const [i, control] of controls.entries()) {
      const changed = control.with(look, 0.37 + i);
      expect(control.of(changed)).toBe(0.37 + i);
      // Nothing else moves.
      expect(control.with(changed, control.of(look))).toEqual(look);
    }
  });

  it("hold to what the recipe allows and speak with a sign", () => {
    expect(allowed(CONTROLS[0], 99)).toBe(10);
    expect(Object.is(allowed(CONTROLS[0], -0.001), 0)).toBe(true);
    expect(accessibleText(CONTROLS[0], 0.333)).toBe("+0.33 EV");
    expect(accessibleText(CONTROLS[1], -4)).toBe("−4.0 CC");
    expect(accessibleText(CONTROLS[6], 0.3)).toBe("0.30");
  });

  it("leave colours out for film that has none", () => {
    const tone = { contrast: 1, toe: 0, shoulder: 0, black: 0, points: [] };
    expect(controlsFor({ film: "black-and-white-negative", tone }).map((c) => c.key)).toEqual([
      "exposure",
      "contrast",
      "toe",
      "shoulder",
      "black",
      "shadowHue",
      "shadowStrength",
      "highlightHue",
      "highlightStrength",
      "paperHue",
      "paperStrength",
    ]);
    expect(
      controlsFor({ film: "slide", tone })
        .map((c) => c.key)
        .slice(-3),
    ).toEqual(["saturation", "paperHue", "paperStrength"]);
  });

  it("are those of the recipe's version", () => {
    const tone = { contrast: 1, toe: 0, shoulder: 0, black: 0, points: [] };
    const ranges = (version: { version?: 2 }) =>
      controlsFor({ film: "slide", tone: { ...tone, ...version } })
        .filter(({ key }) => key === "toe" || key === "shoulder")
        .map(({ key, from, to }) => [key, from, to]);
    expect(ranges({})).toEqual([
      ["toe", 0, 1],
      ["shoulder", 0, 1],
    ]);
    expect(ranges({ version: 2 })).toEqual([
      ["toe", -1, 1],
      ["shoulder", -1, 1],
    ]);
  });
});

describe("edits", () => {
  it("of filtration name only the filters that change", () => {
    expect(
      edits.setFiltration("frame", "07", { cyan: 0, magenta: 4, yellow: 7 }, { cyan: 0, magenta: 4.04, yellow: 9.26 }),
    ).toEqual([{ path: ["frames", "07", "positive", "filtration", "yellow"], value: 9.3 }]);
  });

  it("of an area stay inside the scan when rounded, and the whole scan takes the key out", () => {
    const [edit] = edits.setArea(["07"], { left: 0.33336, top: 0, width: 0.66664, height: 1, tilt: 0.004 });
    expect(edit.value).toEqual({ left: 0.3334, top: 0, width: 0.6666, height: 1 });
    expect(edits.setArea(["07"], { left: 0, top: 0, width: 1, height: 1, tilt: 0 })[0].value).toBeUndefined();
    expect(edits.writtenArea({ left: 0.1, top: 0.1, width: 0.5, height: 0.5, tilt: -0.406 })).toHaveProperty(
      "tilt",
      -0.41,
    );
  });

  it("of the base write where it was read", () => {
    const reading = {
      area: [0.4, 0.40001, 0.2, 0.2] as const,
      density: [0.31049, 0.6, 0.76] as const,
      scatter: [0.004, 0.005, 0.0064] as const,
      scan: "LEADER.dng",
    };
    expect(edits.setBase("roll", "07", reading)).toEqual([
      { path: ["negative", "base", "density"], value: [0.31, 0.6, 0.76] },
      {
        path: ["negative", "base", "read"],
        value: { scan: "LEADER.dng", area: [0.4, 0.4, 0.2, 0.2], scatter: [0.004, 0.005, 0.006] },
      },
    ]);
  });

  it("take keys out that say nothing", () => {
    expect(edits.setTurn("07", 0)[0].value).toBeUndefined();
    expect(edits.setMirror("07", false)[0].value).toBeUndefined();
    expect(edits.setSpots("film", "07", [])[0]).toEqual({ path: ["frames", "07", "spots"], value: undefined });
    expect(edits.setSpots("light", "07", [[0.41237, 0.1, 0.0021]])[0]).toEqual({
      path: ["light", "spots"],
      value: [[0.4124, 0.1, 0.0021]],
    });
    expect(edits.following(["01", "02", "03"], "02")).toEqual(["03"]);
    expect(edits.following(["01"], "09")).toEqual([]);
  });
});

describe("a reference state", () => {
  it("comes back as it was, but for tools and what was kept for comparison", () => {
    const kept = {
      ...FRESH,
      frame: "12A",
      view: "density",
      compare: "wipe",
      wipe: 0.3,
      viewport: { zoom: 2, centre: [0.2, 0.9] },
      scope: "roll",
      pins: { "01": [[0.1, 0.2]] },
      closed: ["curve"],
      tool: "crop",
      against: "kept",
    } as const;
    expect(restored(structuredClone(kept))).toEqual({ ...kept, tool: "look", against: "negative" });
  });

  it.each([
    undefined,
    null,
    7,
    "x",
    [],
    { viewport: 5, pins: [[1]], closed: {}, wipe: "0.5" },
    { viewport: { zoom: NaN, centre: [2, 2] }, view: "other", frame: {}, pins: { a: [["x", 1]] } },
  ])("that is damaged is as fresh: %j", (kept) => expect(restored(kept)).toEqual(FRESH));
});
