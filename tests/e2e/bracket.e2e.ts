/** A frame that is merged from a bracket, in the editor: its preview, its hover's words and a part that goes missing. */
import { mkdirSync, renameSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { filmOf, request, RIG } from "../unit/engine/survey/rig.ts";
import { photographFilm } from "../witness/camera/camera.ts";
import { dngOf } from "../witness/camera/scan-file.ts";
import { packedExtension } from "./host/editor/vsix.ts";
import { takePicture } from "./host/pictures.ts";
import { useSession } from "./host/session.ts";
import { until } from "./host/wait.ts";
import { previewOfOneFrame, WAITING } from "./host/window/one-frame.ts";

const ROLL = "r.roll.yaml";

/** A blank, and one picture at the usual time, at twice and at half of it. */
function writeBracket(folder: string): void {
  mkdirSync(join(folder, "scans"));
  const write = (
    name: string,
    film: Parameters<typeof request>[1],
    times: readonly [number, number],
    seed: number,
  ): void => {
    const usual = request(RIG, film);
    const [seconds, of] = usual.exposure.shutter;
    const exposure = { ...usual.exposure, shutter: [seconds * times[0], of * times[1]] as const };
    writeFileSync(
      join(folder, "scans", name),
      dngOf(photographFilm({ ...usual, exposure }, seed), "2026:05:16 10:00:00"),
    );
  };
  write("LIGHT.dng", "blank", [1, 1], 71);
  const film = filmOf("portrait", RIG.stock);
  write("S1.dng", film, [1, 1], 72);
  write("S2.dng", film, [2, 1], 73);
  write("S3.dng", film, [1, 2], 74);
  writeFileSync(
    join(folder, ROLL),
    `version: 2
scans: scans
light: { blank: LIGHT.dng, flare: [0.002, 0.002, 0.0025] }
negative: { base: { density: [0.27, 0.59, 0.74] } }
frames:
  "01":
    exposures: [S1.dng, S2.dng, S3.dng]
`,
  );
}

describe("a bracket in the editor", () => {
  const session = useSession(() => ({
    vsix: [packedExtension("host")],
    folder: "Varnhaven",
    prepare: writeBracket,
    size: { width: 1280, height: 720 },
    settings: { "workbench.startupEditor": "none" },
  }));

  it("shows the merged picture, and goes on without a part", async () => {
    const { folder, window } = session();
    const panel = await previewOfOneFrame(window, ROLL);
    await takePicture(window.page, "bracket-preview", false);
    renameSync(join(folder, "scans", "S2.dng"), join(folder, "scans", "gone.txt"));
    await until(
      "the part's name",
      async () => (await panel.locator("#panel").textContent())?.includes("S2.dng takes no part") ?? false,
      WAITING,
    );
    await takePicture(window.page, "bracket-without-part", false);
    expect(await panel.locator(".notices .error").count()).toBe(0);
  });
});
