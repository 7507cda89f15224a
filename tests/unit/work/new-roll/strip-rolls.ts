/** A roll that was photographed in strips: camera files of the witness in a folder. */
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { photographFilm } from "../../../witness/camera/camera.ts";
import { CAMERA_A, PANEL } from "../../../witness/camera/cameras.ts";
import { dngOf } from "../../../witness/camera/scan-file.ts";
import { colourMatrixOf } from "../../../witness/camera/colour-matrix.ts";
import { GOOD_SETUP, metered } from "../../../witness/camera/setup.ts";
import { FORMAT_135 } from "../../../witness/film/format.ts";
import { NORTHLIGHT_400 } from "../../../witness/film/stocks.ts";
import { developStrip, type Strip } from "../../../witness/film/strip.ts";
import { subject, type SubjectName } from "../../../witness/scenes/subjects.ts";

export interface StripScan {
  readonly name: string;
  readonly strip: Strip;
  /** Middle of all pictures, fractions of the scan, and their width. */
  readonly centre?: readonly [number, number];
  readonly width?: number;
  readonly tilt?: number;
}

export const STRIP_SIZE = { width: 2400, height: 1200 };

/** A strip of 135 film; numbers count from `first` on. */
export function stripOf(subjects: readonly SubjectName[], first: number, fine = 9): Strip {
  return developStrip(
    subjects.map((name, k) => ({
      scene: subject(name, 36 * fine, 24 * fine, 30 + first + k),
      exposure: 0.2 * (k % 3) - 0.2,
    })),
    NORTHLIGHT_400,
    { format: FORMAT_135, gap: 2, pixelsPerMm: fine, first, edgeCode: { product: 36, specifier: 2 }, ends: [5.5, 5.5] },
    first,
  );
}

/** Writes a blank and scans of strips into `folder`/scans. */
export function writeStrips(folder: string, scans: readonly StripScan[], size = STRIP_SIZE): void {
  mkdirSync(join(folder, "scans"), { recursive: true });
  const stand = { camera: CAMERA_A, light: PANEL, setup: { ...GOOD_SETUP, opening: undefined }, ...size };
  let minute = 0;
  const write = (name: string, scan: ReturnType<typeof photographFilm>): void => {
    const time = `2026:05:16 11:${String(minute++).padStart(2, "0")}:00`;
    writeFileSync(join(folder, "scans", name), dngOf(scan, time, "jpeg", colourMatrixOf(CAMERA_A)));
  };
  const bare = metered(CAMERA_A, PANEL, GOOD_SETUP, "bare light");
  write("LIGHT.dng", photographFilm({ ...stand, film: "blank", exposure: bare }, 5));
  const exposure = metered(CAMERA_A, PANEL, GOOD_SETUP, NORTHLIGHT_400);
  for (const [k, { name, strip, centre = [0.5, 0.5] as const, width = 0.92, tilt = 0.5 }] of scans.entries())
    write(
      name,
      photographFilm(
        { ...stand, film: strip.film, exposure, placement: { centre, width, tilt, mirrored: false } },
        20 + k,
      ),
    );
}
