/**
 * Findings that no exposure brings about alone: files of the wrong kind, scans of two cameras, few pixels for the film,
 * no blank. Each at a light and a strong level, with nothing else found.
 */
import { describe, expect, it } from "vitest";
import { findAll } from "../../../../extension/engine/survey/catalogue.ts";
import { measuredFlare } from "../../../../extension/engine/survey/findings/flare.ts";
import type { Finding } from "../../../../extension/engine/survey/types.ts";
import type { LinearScan } from "../../../../extension/engine/types.ts";
import type { ScanRequest } from "../../../witness/camera/camera.ts";
import { CAMERA_B } from "../../../witness/camera/cameras.ts";
import { FAULTS } from "../../../witness/faults/faults.ts";
import { GOOD_SETUP, metered } from "../../../witness/camera/setup.ts";
import { type DecodedScan, HEIGHT, measuredRoll, RIG, type RollOptions, WIDTH } from "./rig.ts";
import type { SubjectName } from "./subjects/subjects.ts";

const SUBJECTS: readonly SubjectName[] = ["portrait", "night"];

const found = (order: Omit<RollOptions, "subjects">, subjects = SUBJECTS): Finding[] =>
  findAll(measuredRoll({ subjects, ...order }).roll);
const codes = (findings: readonly Finding[]): string[] => findings.map((f) => f.code);

/** As a camera writes a JPEG: eight bits along the curve of IEC 61966-2-1, and read back. */
function asJpeg({ scan, info }: DecodedScan): DecodedScan {
  const encode = (v: number): number => (v <= 0.0031308 ? 12.92 * v : 1.055 * v ** (1 / 2.4) - 0.055);
  const decode = (v: number): number => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4);
  const data = scan.data.map((v) => {
    const signal = Math.min(1, Math.max(0, (v - scan.black) * scan.scale));
    return scan.black + decode(Math.round(255 * encode(signal)) / 255) / scan.scale;
  });
  const { mosaic: _, ...rest } = info;
  return { scan: { ...scan, data } satisfies LinearScan, info: { ...rest, source: "jpeg", bits: 8 } };
}

describe("a JPEG instead of a raw file", () => {
  it.each([
    ["light: one of two scans", (made: DecodedScan, i: number) => (i === 1 ? asJpeg(made) : made), 1],
    ["strong: every scan and the blank", asJpeg, 2],
  ] as const)("%s", (_, decoded, count) => {
    const findings = found({ decoded });
    expect(codes(findings)).toEqual(["jpeg"]);
    expect(findings[0].measured).toBe(count);
  });
});

describe("scans of two cameras in one roll", () => {
  const other = { camera: CAMERA_B, exposure: metered(CAMERA_B, RIG.light, GOOD_SETUP, RIG.stock) };
  it.each([
    ["light: one scan of four", 1, [3]],
    ["strong: every other scan", 2, [1, 3]],
  ] as const)("%s", (_, __, odd) => {
    const order = {
      fault: ((r, i) => ((odd as readonly number[]).includes(i) ? { ...r, ...other } : r)) as RollOptions["fault"],
    };
    const findings = found(order, ["portrait", "night", "portrait", "night"]);
    expect(new Set(codes(findings))).toEqual(new Set(["mixed-setup"]));
    // Camera and lens, one finding each.
    expect(findings.filter((f) => f.code === "mixed-setup").map((f) => f.measured)).toEqual([2, 2]);
  });
});

describe("few pixels for the film", () => {
  const sized = (r: ScanRequest, width: number): ScanRequest => ({
    ...r,
    width,
    height: 2 * Math.round((width * HEIGHT) / WIDTH / 2),
  });

  it.each([
    ["light", 376],
    ["strong", 320],
  ])("%s: a scan %i pixels wide", (_, width) => {
    const findings = found({ fault: (r) => sized(r, width) });
    expect(codes(findings)).toEqual(["low-resolution"]);
    // 9 mm of film fill 91 % of the scan's width.
    expect(findings[0].measured).toBeCloseTo((25.4 * 0.91 * width) / 9, 0);
    expect(findings[0].limit).toBe(1000);
  });

  // The holder takes 1.5 % of the width on each side: what is seen of it in such scans is grey with the film's light.
  it.each([200, 240, 300])("is no flare: a holder that is hardly in view, %i pixels wide, is not judged", (width) => {
    const { roll } = measuredRoll({ subjects: SUBJECTS, fault: (r) => sized(r, width) });
    expect(codes(findAll(roll))).toEqual(["low-resolution"]);
    expect(roll.scans.map(({ mask, maskTooNarrow }) => [mask, maskTooNarrow])).toEqual(
      SUBJECTS.map(() => [undefined, true]),
    );
    expect(measuredFlare(roll)).toBeUndefined();
  });

  it.each(["light", "strong"] as const)("hides no %s flare where the holder can just be read", (level) => {
    const [few, many] = [376, WIDTH].map(
      (width) =>
        measuredRoll({
          subjects: ["portrait"],
          fault: (r, i) => sized(FAULTS.flare(r, level, Math.max(0, i), 1), width),
        }).roll,
    );
    expect(codes(findAll(few!))).toEqual(["flare", "low-resolution"]);
    // A tenth of the finding's limit: the quick fix writes this number into the recipe.
    for (const [c, value] of measuredFlare(many!)!.entries())
      expect(Math.abs(measuredFlare(few!)![c]! - value)).toBeLessThan(0.001);
  });
});

describe("no scan of the bare light", () => {
  it.each([
    ["light: one frame", ["portrait"]],
    ["strong: a roll", ["portrait", "night", "meadow", "quay"]],
  ] as const)("%s", (_, subjects) => {
    const findings = found({ withBlank: false }, subjects as readonly SubjectName[]);
    expect(codes(findings)).toEqual(["no-blank"]);
    expect(findings[0].place).toEqual({});
  });
});
