/** Edge codes on published pictures, and on film of the witness at real sizes, mirrored, turned and partly masked. */
import { readFileSync } from "node:fs";
import sharp from "sharp";
import { describe, expect, it } from "vitest";
import { edgeBands } from "../../extension/engine/detect/perforations/edge-bands.ts";
import { findOnScan } from "../../extension/engine/detect/index.ts";
import { downsample } from "../../extension/engine/detect/downsampled-scan.ts";
import { filmsOfCode } from "../../extension/scans/edge-codes/film-names.ts";
import { type EdgeCode, readEdgeCodes } from "../../extension/scans/edge-codes/read-edge-codes.ts";
import { readEdges } from "../../extension/work/new-roll/edge/edge-codes.ts";
import { shoot, STAND } from "../unit/engine/detect/scans.ts";
import { GOOD_SETUP } from "../witness/camera/setup.ts";
import { subject } from "../witness/scenes/subjects.ts";

const text = ({ film, frame }: EdgeCode): string =>
  frame === undefined ? film : `${film}/${Math.floor(frame)}${frame % 1 ? "A" : ""}`;

// Source: zxing-cpp, test/samples/dxfilmedge-1 (Apache-2.0): three pictures, each with the text that it holds.
describe("published pictures of edges", () => {
  it.each(["1.jpg", "2.png", "3.webp"])("%s is read as it says", async (name) => {
    const file = new URL(`../reference/dxfilmedge/${name}`, import.meta.url);
    const { data, info } = await sharp(readFileSync(file)).greyscale().raw().toBuffer({ resolveWithObject: true });
    const stated = new URL(`../reference/dxfilmedge/${name[0]}.txt`, import.meta.url);
    const codes = await readEdgeCodes({ width: info.width, height: info.height, data: new Uint8Array(data) });
    expect(codes.map(text)).toContain(readFileSync(stated, "utf8").trim());
  });

  it("carry names that fit what else is printed on them (dxdatabase, CC BY-SA 4.0)", async () => {
    // The drawing 2.png has "KODAK 5095" on its other edge.
    expect((await filmsOfCode("80-11")).some(({ name }) => name.includes("5095"))).toBe(true);
    // 1.jpg has "G-400" on its other edge.
    const names = await filmsOfCode("36-2");
    expect(names.length).toBeGreaterThan(1);
    expect(names.every(({ name }) => name.includes("400"))).toBe(true);
    expect(await filmsOfCode("126-1")).toEqual([]);
  });
});

const CODE = { product: 36, specifier: 2 };

/** Codes that are read on a scan of the witness, as the job reads them. */
async function codesOf(shot: Parameters<typeof shoot>[1], turn: 0 | 90 | 180 | 270 = 0): Promise<string[]> {
  const film = { margin: MARGIN, ...shot?.film };
  const { scan, light } = shoot(subject("street", 450, 300, 5), { stand: EDGE_IN_VIEW, ...shot, film });
  const { downsampled, frame, base } = findOnScan(scan, light, { ratio: 1.5 });
  const found: string[] = [];
  for (const band of edgeBands(downsampled, frame?.area, base?.density))
    found.push(...(await readEdgeCodes(await turned(band, turn))).map(text));
  return found.toSorted();
}

async function turned(band: ReturnType<typeof edgeBands>[number], turn: number): Promise<typeof band> {
  if (turn === 0) return band;
  const raw = { width: band.width, height: band.height, channels: 1 as const };
  const { data, info } = await sharp(band.data, { raw })
    .rotate(turn)
    .toColourspace("b-w")
    .raw()
    .toBuffer({ resolveWithObject: true });
  return { ...band, width: info.width, height: info.height, data: new Uint8Array(data) };
}

// The whole strip is in view: 35 mm of film in two thirds of the scan's height.
const EDGE_IN_VIEW = { ...STAND, setup: { ...GOOD_SETUP, opening: undefined }, size: { width: 1500, height: 1000 } };
/** Film around the picture, mm: up to the film's edges and beyond. */
const MARGIN = [11, 7] as const;
const WIDE = { placement: { width: 0.62 } };

describe("edge codes on film of the witness", () => {
  it("are read with the frames' numbers at real size", async () => {
    expect(await codesOf({ ...WIDE, film: { edgeCode: CODE, frame: "20A" } })).toContain("36-2/20A");
    expect(await codesOf({ ...WIDE, film: { edgeCode: CODE, frame: "7" }, seed: 11 })).toContain("36-2/7");
  }, 60_000);

  it("are read where the emulsion faced the camera, and said to be mirrored", async () => {
    for (const mirrored of [false, true]) {
      const { scan, light } = shoot(subject("street", 450, 300, 5), {
        stand: EDGE_IN_VIEW,
        placement: { width: 0.62, mirrored },
        film: { edgeCode: CODE, frame: "20", margin: MARGIN },
      });
      const [all] = edgeBands(downsample(scan, light), undefined, undefined);
      const codes = (await readEdgeCodes(all)).map((code) => ({
        ...code,
        centre: [code.centre[0] / all.width, code.centre[1] / all.height] as const,
      }));
      expect(codes.map(text)).toContain("36-2/20");
      // 25.83 px of this scan are 1 mm of film.
      for (const { pixelsPerMm } of codes) expect(pixelsPerMm / 25.83).toBeCloseTo(1, 1);
      expect(readEdges([{ codes, width: all.width, height: all.height }])).toMatchObject({ mirrored, frames: ["20"] });
    }
  }, 60_000);

  it.each([90, 180, 270] as const)(
    "are read on a scan that lies turned by %i°",
    async (turn) => {
      expect(await codesOf({ ...WIDE, film: { edgeCode: CODE, frame: "3" } }, turn)).toContain("36-2/3");
    },
    60_000,
  );

  it("are read where a tilted holder hides the edge at one side and half of the data track is left", async () => {
    const film = { edgeCode: CODE, frame: "14" };
    const opening = { left: 0.05, top: 0.08, width: 0.9, height: 0.845 };
    const stand = { ...EDGE_IN_VIEW, setup: { ...GOOD_SETUP, opening } };
    expect(await codesOf({ film, stand, placement: { width: 0.6, tilt: 0.4 } })).toContain("36-2/14");
  }, 60_000);

  it("are not seen where there are none, and nothing is made up where the data track is hidden", async () => {
    expect(await codesOf({ ...WIDE })).toEqual([]);
    const opening = { left: 0.15, top: 0.25, width: 0.7, height: 0.5 };
    const stand = { ...EDGE_IN_VIEW, setup: { ...GOOD_SETUP, opening } };
    expect(await codesOf({ ...WIDE, stand, film: { edgeCode: CODE, frame: "14" } })).toEqual([]);
  }, 60_000);
});
