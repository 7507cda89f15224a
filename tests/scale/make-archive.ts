/** Makes an archive of rolls of tiny scans. Arguments: folder, number of rolls, frames in each. */
import { join } from "node:path";
import { makeRoll } from "../bench/synthetic-roll.ts";

const [folder = ".", rolls = "", frames = ""] = process.argv.slice(2);
for (let k = 1; k <= Number(rolls); k++) {
  const name = `roll-${String(k).padStart(3, "0")}`;
  makeRoll(join(folder, name), name, {
    width: 96,
    height: 64,
    frames: Number(frames),
    // Every frame is a scan of its own; what they show repeats after some.
    output: "  - { name: archive, type: tiff, depth: 16 }\n  - { name: web, type: jpeg, long: 48 }",
  });
}
