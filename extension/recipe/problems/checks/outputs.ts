/** Checks outputs: names on every file system, and settings that fit the file type. */
import { isDeviceName } from "../../paths.ts";
import { checkPrint } from "./print.ts";
import { type Checked, fields, list, text } from "./check.ts";

const lossy = new Set(["jpeg", "webp", "avif"]);
const deep = new Set(["tiff", "png"]);

/** Names that stay apart on every file system, and settings that fit the file type. */
export function checkOutputs({ root, report }: Checked): void {
  const seen = new Map<string, number>();
  for (const [i, item] of (list(root.output) ?? []).entries()) {
    const output = fields(item);
    if (!output) continue;
    const name = text(output.name);
    const type = text(output.type);
    if (name !== undefined) {
      const first = seen.get(name.toLowerCase());
      if (first !== undefined)
        report(
          "duplicate-output",
          ["output", i, "name"],
          `Another output is called ${JSON.stringify(name)} already; their files would overwrite each other. Choose another name.`,
          {
            see: { path: ["output", first, "name"], message: "the first output of this name" },
          },
        );
      else seen.set(name.toLowerCase(), i);
      if (isDeviceName(name) || /[. ]$/.test(name))
        report(
          "unsafe-path",
          ["output", i, "name"],
          `${JSON.stringify(name)} cannot be the name of a folder on every computer. Choose a word like "archive" or "web".`,
        );
    }
    checkPrint({ report }, i, output);
    const file = text(output.file);
    if (file !== undefined && (isDeviceName(file) || /^[. ]|[. ]$/.test(file)))
      report(
        "unsafe-path",
        ["output", i, "file"],
        `${JSON.stringify(file)} cannot be the name of a file on every computer. Begin and end it with a word or {frame}.`,
      );
    if (type === undefined) continue;
    if (output.depth === 16 && !deep.has(type))
      report(
        "depth-impossible",
        ["output", i, "depth"],
        `${type} files hold 8 bits per channel. Write depth: 8, or use tiff or png.`,
        { data: { suggestion: 8 } },
      );
    if (output.quality !== undefined && !lossy.has(type))
      report(
        "without-effect",
        ["output", i, "quality"],
        `${type} files lose nothing, so quality has no effect. Remove it.`,
        { part: "key", data: { key: "quality" } },
      );
    if (output.compression !== undefined && type !== "tiff")
      report(
        "without-effect",
        ["output", i, "compression"],
        `compression is for tiff files and has no effect on ${type}. Remove it.`,
        { part: "key", data: { key: "compression" } },
      );
  }
}
