/** The faults of the copy lens, measured and corrected in the editor: one command, one step of undo, seen in the preview. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { ROLL, writeLensRoll } from "../unit/work/lens/lens-roll.ts";
import { packedExtension } from "./host/editor/vsix.ts";
import { useSession } from "./host/session.ts";

describe("the lens of a roll", () => {
  const session = useSession(() => ({
    vsix: [packedExtension("host")],
    folder: "Varnhaven",
    prepare: (folder) => {
      writeLensRoll(["lace", "pebbles", "workbench"], { red: [0.004, 0.003], blue: [-0.003, -0.003] }, 6100, folder);
    },
    size: { width: 1280, height: 720 },
    settings: { "workbench.startupEditor": "none" },
  }));

  it("is measured by one command, in one step of undo", async () => {
    const { folder, window, text, picture } = session();
    const before = readFileSync(join(folder, ROLL), "utf8");
    await window.openFile(ROLL);
    await window.run("rollbook.measureLens");
    expect(await window.notification("Lateral colour")).toMatch(
      /Lateral colour in the corner: red 4\.\d\d px, blue -3\.\d\d px\. Distortion .* Written to light\.lens\./,
    );
    await text.waitForText("the values", (now) => now.includes("lateral: { red: [0.00"));
    await picture("editor-lens");
    await window.run("undo");
    await text.waitForText("the text before", (now) => now === before);
    await window.run("redo");
    await text.waitForText("the values again", (now) => now.includes("lateral: { red: [0.00"));
  });
});
