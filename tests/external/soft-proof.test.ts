/**
 * Soft proofs against transicc of the package liblcms2-utils, run as a program of its own: the picture's colours to the printer
 * by the output's intent, and from there to the screen by the ICC-absolute colorimetric intent (ISO 15076-1). Which colours
 * the paper has not is judged by what the model printer's inks show (tests/witness/printer/), not by its profile's tables.
 *
 * Bars, common practice, no source: at the table's nodes 0.2 ΔE00, for nothing is interpolated there; between them 0.5 on average
 * and 2 for 95 of 100 over the colours that pictures have, where a difference of 1 is just visible side by side.
 */
import { beforeAll, describe, expect, test } from "vitest";
import { deltaE2000 } from "../../extension/engine/colour/difference.ts";
import { labOf, type Lab, luminanceOf, xyzOfLab } from "../../extension/engine/colour/lab.ts";
import {
  MAX_PROOF_DIFFERENCE,
  PROOF_SIDE,
  type ProofTable,
  readProof,
} from "../../extension/engine/colour/proof-table.ts";
import { conversion, SPACES, toD50, WHITE_D50 } from "../../extension/engine/colour/spaces.ts";
import { apply } from "../../extension/engine/math/matrix.ts";
import type { Rgb } from "../../extension/engine/types.ts";
import { printerProfile } from "../../extension/scans/icc/profile.ts";
import { makeProof } from "../../extension/scans/icc/proof.ts";
import type { RenderingIntent } from "../../extension/scans/icc/transform.ts";
import { iccProfile } from "../../extension/scans/output/icc.ts";
import { type ModelPrinter, modelProfile } from "../witness/printer/printer-profile.ts";
import { printedLab } from "../witness/printer/inks.ts";
import { hasTransicc, INTENTS, transicc } from "./transicc.ts";

const NODE = 0.2;
const BETWEEN = { mean: 0.5, most: 2 };

const rommLab = (rgb: readonly number[]): Lab =>
  labOf(apply(toD50(SPACES.romm), rgb.map((v) => SPACES.romm.decode(v)) as unknown as Rgb));
const screenLab = (rgb: readonly number[]): Lab =>
  labOf(apply(toD50(SPACES.srgb), rgb.map((v) => SPACES.srgb.decode(v)) as unknown as Rgb));

/** Nodes of the table that lie on greys and all over it. */
const NODES = [
  ...Array.from({ length: PROOF_SIDE }, (_, i) => [i, i, i]),
  ...Array.from({ length: 200 }, (_, i) => [
    (i * 7) % PROOF_SIDE,
    (i * 13 + 5) % PROOF_SIDE,
    (i * 19 + 11) % PROOF_SIDE,
  ]),
].map((node) => node.map((v) => v / (PROOF_SIDE - 1)));

/** Colours of sRGB as ROMM RGB: what pictures are mostly made of. */
const PICTURE = Array.from({ length: 400 }, (_, i) => {
  const srgb = [(i * 0.618) % 1, (i * 0.414 + 0.1) % 1, (i * 0.732 + 0.3) % 1] as const;
  const linear = srgb.map((v) => SPACES.srgb.decode(v)) as unknown as Rgb;
  return apply(conversion(SPACES.srgb, SPACES.romm), linear).map((v) => SPACES.romm.encode(v));
});

const read = (table: ProofTable, colour: readonly number[]): { shown: number[]; apart: number } => {
  const out = new Float32Array(4);
  readProof(table, { samples: Float64Array.from(colour, (v) => 65535 * v), n: 1, channels: 3 }, out);
  return { shown: [...out.subarray(0, 3)].map((v) => v / 65535), apart: (out[3]! / 65535) * MAX_PROOF_DIFFERENCE };
};

function proofByReference(
  profile: Uint8Array,
  intent: RenderingIntent,
  compensate: boolean,
  colours: readonly (readonly number[])[],
): number[][] {
  const printed = transicc({ from: iccProfile("romm", 3), to: profile, intent, compensate }, colours);
  const screen = {
    from: profile,
    to: iccProfile("srgb", 3),
    intent: "absolute-colorimetric",
    compensate: false,
  } as const;
  return transicc(screen, printed);
}

const statistics = (all: readonly number[]): { worst: number; most: number; mean: number } => ({
  worst: Math.max(...all),
  most: all.toSorted((a, b) => a - b)[Math.floor(0.95 * all.length)]!,
  mean: all.reduce((sum, v) => sum + v, 0) / all.length,
});

describe.runIf(hasTransicc).each(["RGB", "CMYK"] as const)("the proof of a %s printer", (printer: ModelPrinter) => {
  let bytes: Uint8Array;
  beforeAll(() => {
    bytes = modelProfile(printer);
  });
  const proof = (intent: RenderingIntent, compensate: boolean): Promise<ProofTable> =>
    makeProof({ profile: printerProfile(bytes, "model.icc"), file: "model.icc", intent, compensate }, "srgb");

  test.each(INTENTS.map((intent) => [intent, intent === "relative-colorimetric"] as const))(
    "by the %s intent is the reference's",
    async (intent, compensate) => {
      const table = await proof(intent, compensate);
      const differences = (colours: readonly (readonly number[])[]): number[] => {
        const reference = proofByReference(bytes, intent, compensate, colours);
        expect(reference).toHaveLength(colours.length);
        return colours.map((colour, i) => deltaE2000(screenLab(read(table, colour).shown), screenLab(reference[i]!)));
      };
      expect(statistics(differences(NODES)).worst).toBeLessThan(NODE);
      const between = statistics(differences(PICTURE));
      expect(between.mean).toBeLessThan(BETWEEN.mean);
      expect(between.most).toBeLessThan(BETWEEN.most);
    },
    60_000,
  );

  test("shows the paper's white and black as they are beside a white screen", async () => {
    const table = await proof("relative-colorimetric", true);
    const inks = transicc(
      { from: iccProfile("romm", 3), to: bytes, intent: "relative-colorimetric", compensate: true },
      [
        [1, 1, 1],
        [0, 0, 0],
      ],
    ).map((device) => (printer === "RGB" ? device.map((v) => 1 - v) : device));
    const [white, black] = inks.map((ink) => printedLab(ink, "diffuser")) as [Lab, Lab];
    expect(white[0]).toBeLessThan(96);
    expect(black[0]).toBeGreaterThan(5);
    expect(deltaE2000(screenLab(read(table, [1, 1, 1]).shown), white)).toBeLessThan(0.3);
    // Between nodes of the profile's tables the model's black is only met nearly.
    expect(deltaE2000(screenLab(read(table, [0, 0, 0]).shown), black)).toBeLessThan(1.5);
  });

  test("tells which colours the paper has not", async () => {
    const table = await proof("relative-colorimetric", true);
    const way = { from: iccProfile("romm", 3), to: bytes, intent: "relative-colorimetric", compensate: true } as const;
    const inks = transicc(way, [[0, 0, 0], ...PICTURE]).map((device) =>
      printedLab(printer === "RGB" ? device.map((v) => 1 - v) : device),
    );
    const black = luminanceOf(inks[0]![0]);
    const apart = PICTURE.map((colour, i) => {
      const xyz = xyzOfLab(rommLab(colour)).map((v, c) => v * (1 - black) + black * WHITE_D50[c]!) as unknown as Rgb;
      return deltaE2000(labOf(xyz), inks[i + 1]!);
    });
    const wrong = PICTURE.filter((colour, i) => {
      const [here, there] = [read(table, colour).apart >= 3, apart[i]! >= 3];
      // Colours close to the bar may fall on either side.
      return here !== there && Math.abs(apart[i]! - 3) > 1.5;
    });
    expect(wrong.length).toBeLessThanOrEqual(0.02 * PICTURE.length);
    const beyond = apart.filter((v) => v >= 3).length / apart.length;
    expect(beyond).toBeGreaterThan(0.1);
    expect(beyond).toBeLessThan(0.9);
  });
});
