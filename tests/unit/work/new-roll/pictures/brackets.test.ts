/** A dense negative that was photographed at three shutter times is one frame that is merged; a retake stays a retake. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { loadRoll } from "../../../../../extension/recipe/resolve/workspace.ts";
import { openWorkspace } from "../../../../../extension/work/files/workspace.ts";
import { startRoll } from "../../../../../extension/work/new-roll/new-roll.ts";
import { renewRoll } from "../../../../../extension/work/new-roll/renew/renew-roll.ts";
import { photographFilm, type ScanRequest } from "../../../../witness/camera/camera.ts";
import { dngOf } from "../../../../witness/camera/scan-file.ts";
import { GOOD_PLACEMENT } from "../../../../witness/camera/setup.ts";
import { develop, type DevelopedFilm } from "../../../../witness/film/film.ts";
import { request, RIG, SMALL_FORMAT } from "../../../engine/survey/rig.ts";
import { SUBJECTS, type SubjectName } from "../../../engine/survey/subjects/subjects.ts";
import { poolHere } from "../rolls.ts";

const folder = mkdtempSync(join(tmpdir(), "brackets-"));
afterAll(() => rmSync(folder, { recursive: true }));
mkdirSync(join(folder, "scans"));

function filmOf(subject: SubjectName, seed: number): DevelopedFilm {
  const options = { format: SMALL_FORMAT, frame: "12", margin: [1, 1] as [number, number], pixelsPerMm: 110 };
  return develop(SUBJECTS[subject](990, 660), RIG.stock, options, seed);
}
let minute = 0;
function write(name: string, film: DevelopedFilm | "blank", stops = 0, nudge = 0): void {
  const usual = request(RIG, film);
  const [x, y] = GOOD_PLACEMENT.centre;
  const [seconds, of] = usual.exposure.shutter;
  const changed: ScanRequest = {
    ...usual,
    exposure: { ...usual.exposure, shutter: stops >= 0 ? [seconds * 2 ** stops, of] : [seconds, of * 2 ** -stops] },
    placement: { ...GOOD_PLACEMENT, centre: [x + 0.0003 * nudge, y - 0.0002 * nudge] },
  };
  const time = `2026:05:16 10:${String(minute).padStart(2, "0")}:00`;
  writeFileSync(join(folder, "scans", name), dngOf(photographFilm(changed, 50 + minute++), time));
}

describe("a folder with a bracket and a retake", () => {
  it("makes one merged frame of the bracket, and sets the retake's first scan aside", async () => {
    write("LIGHT.dng", "blank");
    write("S01.dng", filmOf("portrait", 7));
    const faces = filmOf("faces", 8);
    write("S02.dng", faces);
    write("S03.dng", faces, 1, 1);
    write("S04.dng", faces, -1, 2);
    const sitter = filmOf("portrait", 21);
    write("S05.dng", sitter);
    // Photographed again at the same time.
    write("S06.dng", sitter, 0, 3);
    // The same subject on another piece of film, at another time: another picture.
    write("S07.dng", filmOf("faces", 11));
    write("S08.dng", filmOf("faces", 12), 1);
    const workspace = openWorkspace(folder);
    const roll = join(folder, "r.roll.yaml");
    const { frames, warnings, text } = await startRoll({ folder: join(folder, "scans"), roll }, workspace, poolHere);
    expect(frames.map(({ scans, merged, unused }) => [scans, merged, unused])).toEqual([
      [["S01.dng"], undefined, []],
      [["S02.dng", "S03.dng", "S04.dng"], true, []],
      [["S06.dng"], undefined, ["S05.dng"]],
      [["S07.dng"], undefined, []],
      [["S08.dng"], undefined, []],
    ]);
    expect(text).toContain("exposures: [S02.dng, S03.dng, S04.dng]");
    expect(warnings.join("\n")).toContain("S02.dng, S03.dng and S04.dng show the same picture");
    // The picture is found on the merged scan as it is on the others.
    const [single, merged] = frames.map(({ found }) => found!.area.width);
    expect(Math.abs(single! - merged!)).toBeLessThan(0.01);

    writeFileSync(roll, text);
    const loaded = (await loadRoll("r.roll.yaml", workspace))!;
    expect(loaded.resolved!.frames[1]!.merged).toBe(true);
    const renewal = await renewRoll(loaded, { groups: ["area"], overwrite: false }, workspace, poolHere);
    expect(renewal.warnings.join()).not.toContain("Frame 02");
    expect(renewal.kept.map(({ reason }) => reason)).not.toContain("not found");
  }, 600_000);
});
