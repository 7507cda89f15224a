/** A picture that was photographed twice makes one frame, and a word. Film at the size of pixels that real scans have. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { formatRecipe } from "../../../../../extension/recipe/edit/layout/format.ts";
import { openWorkspace } from "../../../../../extension/work/files/workspace.ts";
import { startRoll } from "../../../../../extension/work/new-roll/new-roll.ts";
import { photographFilm, type ScanRequest } from "../../../../witness/camera/camera.ts";
import { dngOf } from "../../../../witness/camera/scan-file.ts";
import { develop, type DevelopedFilm } from "../../../../witness/film/film.ts";
import { GOOD_PLACEMENT } from "../../../../witness/camera/setup.ts";
import { request, RIG, SMALL_FORMAT } from "../../../engine/survey/rig.ts";
import { SUBJECTS, type SubjectName } from "../../../engine/survey/subjects/subjects.ts";
import { poolHere, startIn, writeRoll } from "../rolls.ts";

const folder = mkdtempSync(join(tmpdir(), "retakes-"));
afterAll(() => rmSync(folder, { recursive: true }));
mkdirSync(join(folder, "scans"));

function filmOf(subject: SubjectName, seed: number): DevelopedFilm {
  const options = { format: SMALL_FORMAT, frame: "12", margin: [1, 1] as [number, number], pixelsPerMm: 110 };
  return develop(SUBJECTS[subject](990, 660), RIG.stock, options, seed);
}
const moved = (r: ScanRequest): ScanRequest => {
  const [x, y] = GOOD_PLACEMENT.centre;
  return { ...r, placement: { ...GOOD_PLACEMENT, centre: [x + 0.009, y - 0.01], tilt: GOOD_PLACEMENT.tilt + 0.3 } };
};
let minute = 0;
const write = (name: string, film: DevelopedFilm | "blank", change = (r: ScanRequest): ScanRequest => r): void => {
  const scan = photographFilm(change(request(RIG, film)), 50 + minute);
  writeFileSync(join(folder, "scans", name), dngOf(scan, `2026:05:16 10:${String(minute++).padStart(2, "0")}:00`));
};

describe("pictures that were photographed twice", () => {
  it("are never joined with themselves and make no second frame; two pictures of one subject make two", async () => {
    write("LIGHT.dng", "blank");
    write("S01.dng", filmOf("portrait", 7));
    const faces = filmOf("faces", 8);
    write("S02.dng", faces);
    write("S03.dng", filmOf("night", 9));
    // After the roll, moved and turned in the holder.
    write("S04.dng", faces, moved);
    // The same subject on another piece of film.
    write("S05.dng", filmOf("faces", 11));
    const roll = join(folder, "r.roll.yaml");
    const started = await startRoll({ folder: join(folder, "scans"), roll }, openWorkspace(folder), poolHere);
    const { frames, warnings, text } = started;
    expect(frames.map(({ scans, unused, join: joined }) => [scans, unused, joined])).toEqual([
      [["S01.dng"], [], undefined],
      [["S04.dng"], ["S02.dng"], undefined],
      [["S03.dng"], [], undefined],
      [["S05.dng"], [], undefined],
    ]);
    expect(warnings).toContain(
      "S04.dng shows the same picture as S02.dng: it is used, and S02.dng is listed as unused.",
    );
    expect(text).toMatch(/# The same picture, photographed before\.\n {4}unused: \[S02\.dng\]/);
    expect(text).not.toContain("join:");
    expect(formatRecipe(text, { kind: "roll" })).toBe(text);
  }, 120_000);
});

describe("a picture that was photographed twice on scans of 780 pixels, which show no grain", () => {
  const small = writeRoll({ shots: [{ of: "portrait", again: true }, { of: "street", again: true }, { of: "table" }] });
  afterAll(() => rmSync(small, { recursive: true }));

  it("is joined with nothing and makes no second frame without a word", async () => {
    const { frames, warnings } = await startIn(small);
    expect(frames.every(({ join: joined }) => joined === undefined)).toBe(true);
    const named = (name: string): boolean => warnings.some((text) => text.startsWith(`${name} `));
    for (const twice of ["S0010", "S0011"]) {
      const second = frames.filter(({ scans }) => scans.some((name) => name.startsWith(twice)));
      expect(second.length === 1 || named(`${twice}.dng`) || named(`${twice}-2.dng`)).toBe(true);
    }
    expect(warnings.some((text) => text.includes("S0012.dng"))).toBe(false);
  }, 240_000);
});
