import { afterEach, describe, expect, it } from "vitest";
import { accessibleText, CONTROLS } from "../../../webview/state/controls.ts";
import { useTranslations, useTranslationsOf, t } from "../../../webview/translate.ts";

const rootWith = (words?: string): HTMLElement => ({ dataset: words === undefined ? {} : { words } }) as never;

describe("words", () => {
  afterEach(() => useTranslations(() => undefined));

  it("are English with their values, until a bundle says otherwise", () => {
    useTranslationsOf(rootWith());
    expect(t("Frame {0}", "07")).toBe("Frame 07");
    expect(t("{0} of {1}", 1)).toBe("1 of {1}");
    useTranslationsOf(
      rootWith(JSON.stringify({ "Frame {0}": "Bild {0}", "Reset {0} to {1} ({2})": "{2}: {1} für {0}", Crop: 7 })),
    );
    expect(t("Frame {0}", "07")).toBe("Bild 07");
    expect(t("Reset {0} to {1} ({2})", "a", "b", "c")).toBe("c: b für a");
    expect(t("Crop")).toBe("Crop");
    expect(t("toString")).toBe("toString");
  });

  it("of controls are asked for when they are shown", () => {
    useTranslations((english) => ({ Exposure: "Belichtung", EV: "LW" })[english]);
    expect(CONTROLS[0].label).toBe("Belichtung");
    expect(accessibleText(CONTROLS[0], 0.5)).toBe("+0.50 LW");
  });
});
