import { describe, expect, it } from "vitest";
import type { FoundFrame } from "../../../../extension/engine/detect/frame.ts";
import { commonPlace } from "../../../../extension/engine/detect/roll-place.ts";

type Sides = Partial<FoundFrame["sides"]>;

function found(left: number, width: number, sides: Sides = {}, confidence = 0.95): FoundFrame {
  return {
    area: { left, top: 0.1, width, height: 0.75, tilt: 10 * (left - 0.1) },
    confidence,
    sides: { left: "edge", top: "edge", right: "holder", bottom: "edge", ...sides },
    support: { left: 1, top: 1, right: 1, bottom: 1 },
  };
}

describe("where a roll's pictures lie", () => {
  it("is the middle of those that were found for certain", () => {
    const frames = [found(0.1, 0.8), undefined, found(0.11, 0.801), found(0.13, 0.799), found(0.4, 0.5, {}, 0.6)];
    const place = commonPlace(frames)!;
    for (const [key, value] of Object.entries({ left: 0.11, top: 0.1, width: 0.8, height: 0.75, tilt: 0.1 }))
      expect(place[key as keyof typeof place]).toBeCloseTo(value, 9);
  });

  it("leaves out a picture of another size, and one whose side was not seen", () => {
    const frames = [
      found(0.1, 0.8),
      found(0.1, 0.8),
      found(0.1, 0.8),
      found(0.3, 0.4),
      found(0.2, 0.8, { top: "format" }),
    ];
    expect(commonPlace(frames)).toMatchObject({ left: 0.1, width: 0.8 });
  });

  it("is not told by two pictures, nor where many differ", () => {
    expect(commonPlace([found(0.1, 0.8), found(0.1, 0.8)])).toBeUndefined();
    const mixed = [0.8, 0.8, 0.8, 0.6, 0.6, 0.6].map((width) => found(0.1, width));
    expect(commonPlace(mixed)).toBeUndefined();
  });
});
