/** `rollbook contact`: draws a roll's contact sheet. */
import { existsSync } from "node:fs";
import { extname } from "node:path";
import { contactRoll } from "../work/contact/contact-roll.ts";
import { CONTACT_TYPES, contactType } from "../work/contact/contact-type.ts";
import { framesToWrite } from "../work/frame/select-frames.ts";
import { DRY_RUN_OPTION, isDryRun } from "./dry-run.ts";
import { loadValid, ROOT_OPTION } from "./load.ts";
import { withPool } from "./programs.ts";
import { EXIT, flag, text, UsageError, type Verb, whole } from "./verb.ts";

export const contact: Verb = {
  name: "contact",
  summary: "draw a contact sheet with frame numbers and titles",
  usage: "ROLL -o FILE [--without-rejected] [--workers N] [--overwrite]",
  details:
    "Draws all frames of a roll small on one sheet. The type follows from the file's ending: .jpg, .png, .tif or .webp.\n" +
    "A frame that cannot be shown gets an empty field that says why, and the exit code is 1.",
  example: "rollbook contact harbour.roll.yaml -o harbour-contact.jpg",
  options: {
    out: { value: "FILE", short: "o", help: "file to write" },
    workers: { value: "N", help: "worker threads (default: one per processor core, at most 8)" },
    "without-rejected": { help: "leave out frames whose choice is reject" },
    overwrite: { help: "replace a file that is not this roll's own contact sheet" },
    ...DRY_RUN_OPTION,
    ...ROOT_OPTION,
  },
  files: [1, 1],
  async run(call) {
    const { terminal, signal } = call;
    const file = text(call, "out");
    if (!file) throw new UsageError("Give the destination with -o FILE.");
    const type = contactType(file);
    if (!type)
      throw new UsageError(
        `A contact sheet ends in ${Object.keys(CONTACT_TYPES).join(", ")}, not "${extname(file).toLowerCase() || file}".`,
      );
    const workers = whole(call, "workers", 1, 64);
    const recipe = await loadValid(call);
    if (!recipe) return EXIT.problems;
    const withoutRejected = flag(call, "without-rejected");
    if (isDryRun(call)) {
      const { length } = framesToWrite(recipe.resolved, { withoutRejected });
      terminal.print(`Would ${existsSync(file) ? "replace" : "write"} ${file} with ${length} frames.`);
      terminal.result({ ok: true, recipe: recipe.shown, file, dryRun: true });
      return EXIT.good;
    }
    const options = { file, type, overwrite: flag(call, "overwrite"), withoutRejected };
    const report = await withPool(workers, (pool) =>
      contactRoll(recipe.resolved, recipe.workspace, pool, options, {
        signal,
        onProgress: (done, total, frame) => terminal.progress(done, total, `frame ${frame}`),
      }),
    );
    for (const { frame, message } of report.failures) terminal.printError(`frame ${frame} is not shown: ${message}`);
    terminal.print(`${file}: ${report.width} × ${report.height} pixels.`);
    terminal.result({ ok: report.failures.length === 0, recipe: recipe.shown, file, ...report });
    return report.failures.length > 0 ? EXIT.problems : EXIT.good;
  },
};
