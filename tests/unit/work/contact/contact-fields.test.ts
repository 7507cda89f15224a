import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { parseRecipe } from "../../../../extension/recipe/problems/document.ts";
import { resolveRoll } from "../../../../extension/recipe/resolve/resolve.ts";
import { SHEET_PAPERS } from "../../../../extension/work/contact/pdf/pdf-layout.ts";
import { CONTACT_FIELDS, fieldText, unknownField } from "../../../../extension/work/contact/contact-fields.ts";

const ROLL = `version: 1
exposed: { camera: folding 35, lens: 50 mm, date: 2026-05-02, rated: 400, focal: 50, developer: 1+9 }
iptc: { creator: Ada Lind, copyright: © 2026 Ada Lind, keywords: [harbour, ferry] }
frames:
  "01":
    scan: a.dng
    note: "bow wave,\n\n      hold the sky"
    exposed: { time: "17:40", aperture: 5.6, shutter: 1/250, filter: yellow, place: Varnhaven, coordinates: [58.2406, 8.3772] }
    iptc: { caption: The east pier. }
  "02": { scan: b.dng }
`;

describe("fields of a contact sheet", () => {
  const [one, two] = resolveRoll(parseRecipe(ROLL, { file: "h.roll.yaml" })).frames;

  it("put everything that a frame states into words, in the order asked for", () => {
    expect(fieldText(one!, ["shutter", "aperture", "date", "time"])).toBe("1/250 s · f/5.6 · 2026-05-02 · 17:40");
    expect(fieldText(one!, ["note", "caption"])).toBe("bow wave, hold the sky · The east pier.");
    expect(fieldText(one!, CONTACT_FIELDS)?.split(" · ")).toHaveLength(CONTACT_FIELDS.length);
  });
  it("take the roll's record where the frame has none, and leave out what nobody states", () => {
    expect(fieldText(two!, ["aperture", "camera", "rated", "keywords"])).toBe("folding 35 · EI 400 · harbour, ferry");
    expect(fieldText(two!, ["aperture", "note"])).toBeUndefined();
    expect(fieldText(two!, [])).toBeUndefined();
  });
  it("are known by name", () => {
    expect(unknownField(["date", "lens"])).toBeUndefined();
    expect(unknownField(["date", "toString", "lens"])).toBe("toString");
  });
});

describe("the editor's settings of contact sheets", () => {
  const manifest = JSON.parse(readFileSync(new URL("../../../../package.json", import.meta.url), "utf8")) as {
    contributes: { configuration: { properties: Record<string, { enum?: string[]; items?: { enum: string[] } }> } };
  };
  const { properties } = manifest.contributes.configuration;

  it("offer the fields and papers that there are", () => {
    expect(properties["rollbook.contactSheet.fields"]?.items?.enum).toEqual([...CONTACT_FIELDS]);
    expect(properties["rollbook.contactSheet.paper"]?.enum?.toSorted()).toEqual(Object.keys(SHEET_PAPERS).toSorted());
  });
});
