/** Makes a roll's contact sheet: a thumbnail of each frame, then the sheet. */
import { errorText } from "../../scans/files/system-errors.ts";
import { dirname, resolve } from "node:path";
import { formatText } from "../../engine/film/formats.ts";
import type { ResolvedRoll } from "../../recipe/resolve/resolve.ts";
import { removeAbandonedParts } from "../../scans/files/atomic.ts";
import { makeFolder } from "../../scans/files/make-folder.ts";
import type { EncodeSpec } from "../../scans/output/encode.ts";
import { CELL_HEIGHT, CELL_WIDTH, type ContactCell } from "./contact-sheet.ts";
import { framesToWrite } from "../frame/select-frames.ts";
import { frameSetup, lightTable } from "../frame/frame-setup.ts";
import { hashOf } from "../files/content-hash.ts";
import { partsOf } from "../frame/join/frame-join.ts";
import { openJournal } from "../render/journal.ts";
import { SOFTWARE } from "../render/metadata.ts";
import { recipeStem } from "../../recipe/resolve/picture-name.ts";
import { rollAsSeenFrom } from "../render/picture-plan.ts";
import type { Pool } from "../pool/pool.ts";
import type { RenderHooks } from "../render/render-roll.ts";
import { existingFile, targetFolder } from "../render/overwrite-guard.ts";
import { sourcesOf } from "../files/sources.ts";
import { framePath, scanPaths } from "../frame/frame-path.ts";
import { eachByScan } from "../frame/frames-by-scan.ts";
import type { Workspace } from "../files/workspace.ts";
import { type ContactField, fieldText } from "./contact-fields.ts";
import { composeContactJob, composePdfJob, thumbnailJob } from "./jobs.ts";
import { pdfLayout, type SheetPaper } from "./pdf/pdf-layout.ts";

export interface ContactReport {
  /** In pixels; of a page, where there are pages. */
  readonly width: number;
  readonly height: number;
  /** Of a PDF file. */
  readonly pages?: number;
  readonly bytes: number;
  /** Frames that could not be shown, and why. */
  readonly failures: readonly { frame: string; message: string }[];
}

export interface ContactOptions {
  readonly file: string;
  readonly type: EncodeSpec["type"] | "pdf";
  /** Of a PDF file. */
  readonly paper?: SheetPaper;
  /** Shown below each picture, in this order; a PDF file shows notes where nothing is chosen. */
  readonly fields?: readonly ContactField[];
  readonly overwrite: boolean;
  /** Leaves out frames whose choice is reject. */
  readonly withoutRejected?: boolean;
}

/** Draws a roll's contact sheet and writes it to `file`. Frames that fail are framed and explained on the sheet. */
export async function contactRoll(
  roll: ResolvedRoll,
  workspace: Workspace,
  pool: Pool,
  options: ContactOptions,
  hooks: RenderHooks = {},
): Promise<ContactReport> {
  const { signal } = hooks;
  const path = resolve(options.file);
  const directory = dirname(path);
  makeFolder(directory);
  await removeAbandonedParts(directory);
  const journal = openJournal(directory, `${recipeStem(roll.file)}.contact`);
  const record = {
    roll: rollAsSeenFrom(directory, roll, workspace),
    frame: "",
    output: "contact",
    file: path.slice(directory.length + 1),
    key: hashOf(["contact", SOFTWARE]),
  };
  const sources = sourcesOf(roll, workspace);
  const scans = resolve(workspace.root, roll.scans);
  const target = { directory, record, sources, scans, overwrite: options.overwrite };
  const there = await existingFile(target, journal, pool, signal);
  const folder = targetFolder(directory, record.file);

  const paper = options.paper ?? "a4";
  const fields = options.fields ?? (options.type === "pdf" ? ["note"] : []);
  const lights = lightTable(roll, workspace, pool, signal);
  const frames = framesToWrite(roll, options);
  let done = 0;
  const box =
    options.type === "pdf" ? pdfLayout(frames.length, paper, 0, 0).pixels : ([CELL_WIDTH, CELL_HEIGHT] as const);
  const cells = await eachByScan(frames, pool.workers, async (frame, { run, keepScan }): Promise<ContactCell> => {
    const { id, title } = frame;
    const cell = { frame: id, title, fields: fieldText(frame, fields) };
    try {
      const joined = partsOf(roll, frame, workspace);
      const scan = joined?.join?.scans[0].path ?? framePath(frame, workspace);
      const { light } = await lights.of(frame);
      const setup = { ...frameSetup(frame, light), ...joined };
      const request = { path: scan, setup, keepScan, box };
      const reads = scanPaths(frame, workspace);
      return { ...cell, picture: await pool.run(thumbnailJob, request, { reads, ...run, signal }) };
    } catch (error) {
      if (signal?.aborted) throw error;
      return { ...cell, failure: errorText(error) };
    } finally {
      hooks.onProgress?.(++done, frames.length, id);
    }
  });

  journal.add(record);
  const title = roll.title ?? recipeStem(roll.file);
  const sheet = {
    title,
    subtitle: subtitleOf(roll, frames.length),
    cells,
    path,
    replace: there?.mark ?? false,
    folder,
  };
  const { sha256, ...size } = await (options.type === "pdf"
    ? pool.run(
        composePdfJob,
        { ...sheet, note: roll.note, hasFields: cells.some((cell) => cell.fields), paper, software: SOFTWARE },
        { signal },
      )
    : pool.run(
        composeContactJob,
        {
          ...sheet,
          spec: { type: options.type, depth: 8, space: "srgb", quality: 92 },
          metadata: {
            title: `${title}: contact sheet`,
            roll: roll.title,
            stock: roll.stock?.title,
            software: SOFTWARE,
          },
        },
        { signal },
      ));
  journal.add({ ...record, done: { bytes: size.bytes, sha256 } });
  return { ...size, failures: cells.flatMap((c) => (c.failure ? [{ frame: c.frame, message: c.failure }] : [])) };
}

function subtitleOf(roll: ResolvedRoll, frames: number): string {
  const { camera, lens, date, place } = roll.exposed;
  const count = `${frames} frame${frames === 1 ? "" : "s"}`;
  const parts = [roll.stock?.title, roll.format && formatText(roll.format), camera, lens, place, date, count];
  return parts.filter((part) => part !== undefined && part !== "").join("  ·  ");
}
