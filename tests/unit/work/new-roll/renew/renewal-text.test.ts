/** Digests tell a value from its layout, and a renewed comment takes the place of its own only. */
import { describe, expect, it } from "vitest";
import { applyChanges } from "../../../../../extension/recipe/edit/edit.ts";
import { parseRecipe } from "../../../../../extension/recipe/problems/document.ts";
import {
  commentDigest,
  FRAME_UNITS,
  ROLL_UNITS,
  unitDigest,
  unitValues,
  valueDigest,
} from "../../../../../extension/work/new-roll/renew/automatic-values.ts";
import type { Renewal, RenewalItem } from "../../../../../extension/work/new-roll/renew/renew-roll.ts";
import { renewalChanges } from "../../../../../extension/work/new-roll/renew/renewal-text.ts";

const valueOf = (text: string): unknown => parseRecipe(text, { file: "a.roll.yaml", kind: "roll" }).value;
const base = ROLL_UNITS.find(({ name }) => name === "base")!;
const area = FRAME_UNITS.find(({ name }) => name === "area")!;

describe("digests", () => {
  const digest = (text: string): string | undefined => valueDigest(unitValues(valueOf(text), [], base));
  it("do not go by layout, order of keys or zeros, but by every digit", () => {
    const plain = digest(
      "negative:\n  base: { density: [0.3, 0.60, 0.76], read: { scan: A.dng, area: [0, 0, 1, 1] } }\n",
    );
    const other =
      "negative:\n  base:\n    read:\n      area: [0.0, 0, 1, 1.00]\n      scan: A.dng\n    density:\n      - 0.30\n      - 0.6\n      - 0.76\n";
    expect(digest(other)).toBe(plain);
    expect(digest(other.replace("0.76", "0.761"))).not.toBe(plain);
    expect(digest("version: 1\n")).toBeUndefined();
    expect(plain).toMatch(/^[b-df-hj-np-tv-z]{8}$/);
  });
  it("of comments do not go by line breaks", () => {
    expect(commentDigest("Measured;  the scans\nagree.")).toBe(commentDigest("Measured; the scans agree."));
  });
});

describe("renewed text", () => {
  const OLD = "Look at this one: 61 % sure.";
  const recipe = (comment: string): string =>
    `version: 1\nframes:\n  "01":\n    scan: A.dng\n${comment}    area: { left: 0.1, top: 0.1, width: 0.8, height: 0.8, tilt: 0 }\nautomatic:\n  scans:\n    A.dng: { area: DIGEST }\n`;
  const now = { left: 0.2, top: 0.1, width: 0.7, height: 0.8, tilt: 0.1 };
  const at = ["frames", "01"];
  const comments = [{ path: [...at, "area"], text: "Look at this one: 75 % sure." }];

  function renewed(comment: string, written = true): string {
    const draft = recipe(comment);
    const value = valueDigest(unitValues(valueOf(draft), at, area))!;
    const digest = written ? `${value}-${commentDigest(OLD)}` : value;
    const text = draft.replace("DIGEST", digest);
    const state = {
      unit: area,
      at,
      frame: "01",
      status: "automatic",
      digestPath: ["automatic", "scans", "A.dng", "area"],
      digest,
    } as const;
    const after = { frames: { "01": { area: now } } };
    const item: RenewalItem = {
      state,
      before: unitValues(valueOf(text), at, area),
      after: [now],
      digest: unitDigest(after, at, area, comments),
    };
    const renewal: Renewal = { renewed: [item], kept: [], same: [], comments, warnings: [], unreadable: [] };
    return applyChanges(text, renewalChanges(text, renewal, [item]));
  }

  it("has the new comment in place of the old one, however that was wrapped", () => {
    const after = renewed("    # Look at this one:\n    # 61 % sure.\n");
    expect(after).toContain("    scan: A.dng\n    # Look at this one: 75 % sure.\n    area: { left: 0.2,");
    expect(after).not.toContain("61 %");
    const value = valueOf(after) as { automatic: { scans: Record<string, { area: string }> } };
    expect(value.automatic.scans["A.dng"].area).toBe(unitDigest(value, at, area, comments));
  });

  it("keeps what a person wrote above it or made of it, and leaves a comment away that a person removed", () => {
    const beside = renewed(`    # Cut the rebate on purpose.\n    # ${OLD}\n`);
    expect(beside).toContain("    # Cut the rebate on purpose.\n    # Look at this one: 75 % sure.\n    area:");
    const changed = renewed("    # Looked at: fine.\n");
    expect(changed).toContain("    # Looked at: fine.\n    area: { left: 0.2,");
    expect(changed).not.toContain("75 %");
    expect(renewed("")).not.toContain("#");
    expect(renewed("", false)).toContain("    # Look at this one: 75 % sure.\n    area:");
  });

  it("keeps the line ends of the file", () => {
    const text = recipe("").replace("DIGEST", "kqzbwmrt").replaceAll("\n", "\r\n");
    const state = {
      unit: area,
      at,
      frame: "01",
      status: "absent",
      digestPath: ["automatic", "scans", "A.dng", "area"],
    } as const;
    const item: RenewalItem = { state, before: unitValues(valueOf(text), at, area), after: [now] };
    const renewal: Renewal = { renewed: [item], kept: [], same: [], comments, warnings: [], unreadable: [] };
    const after = applyChanges(text, renewalChanges(text, renewal, [item]));
    expect(after.replaceAll("\r\n", "")).not.toContain("\n");
    expect(after).toContain("# Look at this one: 75 % sure.\r\n");
  });
});
