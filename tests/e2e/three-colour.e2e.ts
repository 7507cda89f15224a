/** A frame in three-colour light in the editor: its preview, and what is said when one colour goes missing. */
import { mkdirSync, renameSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { filmOf, RIG } from "../unit/engine/survey/rig.ts";
import { CAMERA_A } from "../witness/camera/cameras.ts";
import { dngOf } from "../witness/camera/scan-file.ts";
import { GOOD_PLACEMENT, GOOD_SETUP } from "../witness/camera/setup.ts";
import { LIGHT_NAMES, photographThree } from "../witness/camera/three-lights.ts";
import { packedExtension } from "./host/editor/vsix.ts";
import { takePicture } from "./host/pictures.ts";
import { useSession } from "./host/session.ts";
import { until } from "./host/wait.ts";
import { previewOfOneFrame, WAITING } from "./host/window/one-frame.ts";

const ROLL = "r.roll.yaml";
const size = { camera: CAMERA_A, setup: GOOD_SETUP, placement: GOOD_PLACEMENT, width: 1200, height: 800 } as const;

/** Three blanks, and one picture in three colours. */
function writeColours(folder: string): void {
  mkdirSync(join(folder, "scans"));
  const films = { LIGHT: "blank", S1: filmOf("market", RIG.stock) } as const;
  for (const [name, film] of Object.entries(films))
    photographThree({ ...size, film }, 81).forEach((scan, i) =>
      writeFileSync(join(folder, "scans", `${name}-${LIGHT_NAMES[i]}.dng`), dngOf(scan, "2026:05:16 10:00:00")),
    );
  const names = (name: string): string => `{ red: ${name}-red.dng, green: ${name}-green.dng, blue: ${name}-blue.dng }`;
  writeFileSync(
    join(folder, ROLL),
    `version: 2
scans: scans
light:
  blank: ${names("LIGHT")}
  flare: [0.002, 0.002, 0.0025]
negative: { base: { density: [0.18, 0.63, 0.79] } }
frames:
  "01":
    channels: ${names("S1")}
`,
  );
}

describe("three-colour light in the editor", () => {
  const session = useSession(() => ({
    vsix: [packedExtension("host")],
    folder: "Varnhaven",
    prepare: writeColours,
    size: { width: 1280, height: 720 },
    settings: { "workbench.startupEditor": "none" },
  }));

  it("shows the picture, and says which colour is missing", async () => {
    const { folder, window } = session();
    const panel = await previewOfOneFrame(window, ROLL);
    expect(await panel.locator(".notices .error").count()).toBe(0);
    await takePicture(window.page, "three-colour-preview", false);
    renameSync(join(folder, "scans", "S1-red.dng"), join(folder, "scans", "gone.txt"));
    await until(
      "the missing colour's name",
      async () =>
        (await panel.locator("#panel").textContent())?.includes("S1-red.dng of frame 01 was not found") ?? false,
      WAITING,
    );
    await takePicture(window.page, "three-colour-missing", false);
  });
});
