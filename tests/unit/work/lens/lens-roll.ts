/** A roll on disk that was photographed through a lens with known faults. */
import { mkdirSync, mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { photographFilm } from "../../../witness/camera/camera.ts";
import { dngOf } from "../../../witness/camera/scan-file.ts";
import { projection } from "../../../witness/camera/project.ts";
import { GOOD_PLACEMENT, type LensDrawing } from "../../../witness/camera/setup.ts";
import { filmOf, HEIGHT, request, RIG, WIDTH } from "../../engine/survey/rig.ts";
import type { SubjectName } from "../../engine/survey/subjects/subjects.ts";

export const ROLL = "r.roll.yaml";
export { HEIGHT, WIDTH };

/** Writes the scans, a blank and the recipe into a folder, which is returned: one of its own where none is given. */
export function writeLensRoll(
  subjects: readonly SubjectName[],
  lens: LensDrawing | undefined,
  seed: number,
  folder = mkdtempSync(join(tmpdir(), "lens-")),
): string {
  mkdirSync(join(folder, "scans"));
  const write = (name: string, film: Parameters<typeof request>[1], own: number): void => {
    const plain = request(RIG, film);
    const scan = photographFilm({ ...plain, setup: { ...plain.setup, ...(lens ? { lens } : {}) } }, own);
    writeFileSync(join(folder, "scans", name), dngOf(scan, "2026:05:16 10:00:00"));
  };
  write("LIGHT.dng", "blank", seed);
  subjects.forEach((subject, i) => write(`S${i + 1}.dng`, filmOf(subject, RIG.stock), seed + 1 + i));
  const { area } = projection(filmOf(subjects[0], RIG.stock), GOOD_PLACEMENT, WIDTH, HEIGHT);
  const [left, top, width, height] = [area.left, area.top, area.width, area.height].map((v) => v.toFixed(4));
  writeFileSync(
    join(folder, ROLL),
    `version: 2
scans: scans
light: { blank: LIGHT.dng, flare: [0.002, 0.002, 0.0025] }
negative: { base: { density: [0.27, 0.59, 0.74] } }
output:
  - { name: archive, type: tiff, depth: 8, space: srgb }
frames:
${subjects.map((_, i) => `  "${String(i + 1).padStart(2, "0")}": { scan: S${i + 1}.dng, area: { left: ${left}, top: ${top}, width: ${width}, height: ${height} } }`).join("\n")}
`,
  );
  return folder;
}
