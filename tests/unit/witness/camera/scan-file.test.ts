import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { decodeScan } from "../../../../extension/scans/decode.ts";
import { photographFilm } from "../../../witness/camera/camera.ts";
import { CAMERA_A, CAMERA_B, PANEL } from "../../../witness/camera/cameras.ts";
import { develop } from "../../../witness/film/film.ts";
import { FORMAT_135 } from "../../../witness/film/format.ts";
import { evenScene } from "../../../witness/scenes/scene.ts";
import { dngOf } from "../../../witness/camera/scan-file.ts";
import { GOOD_SETUP, metered } from "../../../witness/camera/setup.ts";
import { NORTHLIGHT_400 } from "../../../witness/film/stocks.ts";

describe("a scan of the witness as a DNG", () => {
  it.each([CAMERA_A, CAMERA_B])("decodes to the truth's transmittance over the bare light: $model", async (camera) => {
    const film = develop(evenScene(270, 180, [0.4, 0.2, 0.1]), NORTHLIGHT_400, { format: FORMAT_135, grain: 0 }, 1);
    const exposure = metered(camera, PANEL, GOOD_SETUP, NORTHLIGHT_400);
    const setup = { ...GOOD_SETUP, veil: [0, 0, 0], stray: [0, 0, 0] } as const;
    const scan = photographFilm({ camera, light: PANEL, setup, film, exposure, width: 360, height: 240 }, 4);
    const folder = mkdtempSync(join(tmpdir(), "witness-"));
    try {
      const path = join(folder, "scan.dng");
      writeFileSync(path, dngOf(scan, "2026:05:02 10:00:00"));
      const { scan: decoded, info } = await decodeScan(path);
      expect(info).toMatchObject({ model: camera.model, iso: camera.baseIso, aperture: 8, mosaic: "bayer" });
      expect(info.shutter).toBeCloseTo(exposure.shutter[0] / exposure.shutter[1], 6);
      expect([decoded.width, decoded.height]).toEqual([360, 240]);
      const expected = scan.truth.transmittanceAt(180, 120);
      for (let c = 0; c < 3; c++) {
        let s = 0;
        for (let y = 110; y < 130; y++) for (let x = 170; x < 190; x++) s += decoded.data[(y * 360 + x) * 3 + c];
        const signal = (s / 400 - decoded.black) * decoded.scale;
        expect(signal / scan.truth.bare[c] / expected[c]).toBeCloseTo(1, 1.7);
      }
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});
