/** The witness photographs film; what is measured on its camera files is held against what it knows of that film. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { readTransmittance } from "../../../../extension/engine/flat-field/transmittance.ts";
import { decodeScan } from "../../../../extension/scans/decode.ts";
import { type FrameLight, lightSetup } from "../../../../extension/work/frame/develop.ts";
import { readBaseOfScan } from "../../../../extension/work/frame/read-base.ts";
import { readLight } from "../../../../extension/work/frame/read-light.ts";
import { photographFilm, type Scan } from "../../../witness/camera/camera.ts";
import { CAMERA_A, PANEL } from "../../../witness/camera/cameras.ts";
import { develop } from "../../../witness/film/film.ts";
import { FORMAT_135 } from "../../../witness/film/format.ts";
import { dngOf } from "../../../witness/camera/scan-file.ts";
import { type Exposure, GOOD_SETUP, metered } from "../../../witness/camera/setup.ts";
import { NORTHLIGHT_400 } from "../../../witness/film/stocks.ts";

const [width, height] = [900, 600];
const common = { camera: CAMERA_A, light: PANEL, setup: GOOD_SETUP, width, height };
const film = develop("leader", NORTHLIGHT_400, { format: FORMAT_135, pixelsPerMm: 22 }, 5);
const normal = metered(CAMERA_A, PANEL, GOOD_SETUP, NORTHLIGHT_400);
/** The same scan with half and a quarter of the light. */
const exposures: Exposure[] = [1, 2, 4].map((k) => ({
  ...normal,
  shutter: [normal.shutter[0], normal.shutter[1] * k],
}));

let folder = "";
let light: FrameLight;
let leaders: { path: string; scan: Scan }[] = [];

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "witness-"));
  const save = (name: string, scan: Scan): string => {
    const path = join(folder, name);
    writeFileSync(path, dngOf(scan, "2026:05:02 10:00:00"));
    return path;
  };
  const bare = photographFilm(
    {
      ...common,
      // The blank is taken with the holder away.
      setup: { ...GOOD_SETUP, opening: undefined },
      film: "blank",
      exposure: metered(CAMERA_A, PANEL, GOOD_SETUP, "bare light"),
    },
    1,
  );
  leaders = exposures.map((exposure, k) => {
    const scan = photographFilm({ ...common, film, exposure }, 10 + k);
    return { path: save(`LEADER${k}.dng`, scan), scan };
  });
  const reading = await readLight({ path: save("LIGHT.dng", bare), field: true });
  light = { field: reading.field, flare: leaders[0].scan.truth.flare, reference: reading.exposure };
}, 60_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("film photographed by the witness", () => {
  it("has the base density that the model gives it, within 0.005, at three shutter times", async () => {
    for (const { path, scan } of leaders) {
      const { density, warnings } = await readBaseOfScan({ path, area: [0.35, 0.35, 0.3, 0.3], light });
      const truth = scan.truth.base as readonly number[];
      for (let c = 0; c < 3; c++) expect(Math.abs(density[c] - truth[c])).toBeLessThan(0.005);
      expect(warnings).toEqual([]);
    }
  });

  it("has the same transmittance all over the picture, within 0.5 %, whatever the light does there", async () => {
    const { path, scan } = leaders[0];
    const decoded = await decodeScan(path);
    const reader = readTransmittance(decoded.scan, lightSetup(light, decoded.info));
    const side = 60;
    const rows = Array.from({ length: height }, (_, y) => {
      const row = new Float32Array(width * 3);
      reader.row(y, row);
      return row;
    });
    let worst = 0;
    for (let v = 0.08; v < 0.95; v += 0.14)
      for (let u = 0.08; u < 0.95; u += 0.12) {
        const [x, y] = scan.truth.placeOf(u, v).map((p) => Math.round(p) - side / 2);
        const sum = [0, 0, 0];
        for (let dy = 0; dy < side; dy++)
          for (let i = 0; i < side * 3; i++) sum[i % 3] += rows[y + dy][x * 3 + i] / (side * side);
        // A flat density with grain has a mean transmittance a little above that of its mean density: compare places.
        const truth = scan.truth.base as readonly number[];
        for (let c = 0; c < 3; c++) worst = Math.max(worst, Math.abs(sum[c] / 10 ** -truth[c] - 1));
      }
    expect(worst).toBeLessThan(0.005);
  });
});
