/** `rollbook contact`: draws a roll's contact sheet. */
import { existsSync } from "node:fs";
import { extname } from "node:path";
import { contactRoll } from "../work/contact/contact-roll.ts";
import { CONTACT_TYPES, contactType } from "../work/contact/contact-type.ts";
import { CONTACT_FIELDS, type ContactField, unknownField } from "../work/contact/contact-fields.ts";
import { SHEET_PAPERS, SHEET_PPI, type SheetPaper } from "../work/contact/pdf/pdf-layout.ts";
import { framesToWrite } from "../work/frame/select-frames.ts";
import { DRY_RUN_OPTION, isDryRun } from "./dry-run.ts";
import { loadValid, ROOT_OPTION } from "./load.ts";
import { withPool } from "./programs.ts";
import { type Call, EXIT, flag, text, UsageError, type Verb, whole } from "./verb.ts";

/** Names of the fields, in two lines of the help. */
const FIELD_NAMES = [CONTACT_FIELDS.slice(0, 9), CONTACT_FIELDS.slice(9)].map((part) => part.join(", ")).join(",\n");

function paperOf(call: Call, type: string): SheetPaper | undefined {
  const paper = text(call, "paper");
  if (paper === undefined) return undefined;
  if (type !== "pdf") throw new UsageError("--paper is for a contact sheet that ends in .pdf.");
  if (!Object.hasOwn(SHEET_PAPERS, paper))
    throw new UsageError(`--paper is ${Object.keys(SHEET_PAPERS).join(" or ")}, not "${paper}".`);
  return paper as SheetPaper;
}

function fieldsOf(call: Call): readonly ContactField[] | undefined {
  const list = text(call, "fields");
  if (list === undefined) return undefined;
  const names = list
    .split(",")
    .map((name) => name.trim())
    .filter((name) => name !== "");
  const unknown = unknownField(names);
  if (unknown !== undefined)
    throw new UsageError(`--fields knows no "${unknown}". The fields are ${CONTACT_FIELDS.join(", ")}.`);
  return names as ContactField[];
}

export const contact: Verb = {
  name: "contact",
  summary: "draw a contact sheet with frame numbers and titles",
  usage: "ROLL -o FILE [--paper P] [--fields LIST] [--without-rejected] [--workers N] [--overwrite]",
  details:
    "Draws all frames of a roll small on one sheet. The type follows from the file's ending: .jpg, .png, .tif or .webp,\n" +
    "or .pdf for pages to print at 300 ppi on --paper 8x10in or a4, with notes.\n" +
    `--fields shows below each picture what its frame states, in the order given:\n${FIELD_NAMES}.\n` +
    "A frame that cannot be shown gets an empty field that says why, and the exit code is 1.",
  example: "rollbook contact harbour.roll.yaml -o harbour-contact.jpg",
  options: {
    paper: { value: "P", help: `paper of a .pdf file: ${Object.keys(SHEET_PAPERS).join(", ")} (default: a4)` },
    fields: { value: "LIST", help: "names of fields with commas between them, such as date,aperture,shutter" },
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
    const paper = paperOf(call, type);
    const fields = fieldsOf(call);
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
    const options = { file, type, paper, fields, overwrite: flag(call, "overwrite"), withoutRejected };
    const report = await withPool(workers, (pool) =>
      contactRoll(recipe.resolved, recipe.workspace, pool, options, {
        signal,
        onProgress: (done, total, frame) => terminal.progress(done, total, `frame ${frame}`),
      }),
    );
    for (const { frame, message } of report.failures) terminal.printError(`frame ${frame} is not shown: ${message}`);
    const { width, height, pages } = report;
    terminal.print(
      pages === undefined
        ? `${file}: ${width} × ${height} pixels.`
        : `${file}: ${pages} ${pages === 1 ? "page" : "pages"} of ${width} × ${height} pixels at ${SHEET_PPI} ppi.`,
    );
    terminal.result({ ok: report.failures.length === 0, recipe: recipe.shown, file, ...report });
    return report.failures.length > 0 ? EXIT.problems : EXIT.good;
  },
};
