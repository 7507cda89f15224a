/** Names and identities of the pictures that a roll writes. */
import { join, relative, sep } from "node:path";
import { referencesOf } from "../../recipe/resolve/channels.ts";
import { pictureFile } from "../../recipe/resolve/picture-name.ts";
import type { ResolvedPrint } from "../../recipe/resolve/print.ts";
import type { ResolvedFrame, ResolvedOutput, ResolvedRoll } from "../../recipe/resolve/resolve.ts";
import { hashOf, stampOf } from "../files/content-hash.ts";
import type { PrinterRequest } from "./encode-sheet.ts";
import type { PictureRequest } from "./render-frame.ts";
import type { PictureRecord } from "./journal.ts";
import { pictureMetadata } from "./metadata.ts";
import { VERSION } from "../files/version.ts";
import type { Workspace } from "../files/workspace.ts";

/** A picture that a roll is to write. */
export interface PlannedPicture {
  readonly output: ResolvedOutput;
  /** Absolute. */
  readonly path: string;
  readonly record: PictureRecord;
}

/**
 * Raise it when the same recipe and scans give another picture within one version: older ones are then made again. At 1,
 * pictures could be made without the exposure of the base's scan.
 */
const FORM = 2;

/** A roll's recipe as seen from a folder of pictures: it tells whose pictures they are. */
export const rollAsSeenFrom = (directory: string, roll: ResolvedRoll, workspace: Workspace): string =>
  relative(directory, workspace.absolute(roll.file)).split(sep).join("/");

/** Plans a frame's pictures, one folder for each output. */
export function planPictures(
  roll: ResolvedRoll,
  frame: ResolvedFrame,
  workspace: Workspace,
  directory: string,
  outputs: readonly ResolvedOutput[],
): PlannedPicture[] {
  const home = rollAsSeenFrom(directory, roll, workspace);
  const stamps = sourceStamps(frame, workspace);
  return outputs.map((output) => {
    const file = pictureFile(roll, frame, output);
    const metadata = pictureMetadata(roll, frame, recipeHash(frame, output));
    const profile = output.print?.profile;
    const made = profile ? [...stamps, stampOf(workspace.absolute(profile.path))] : stamps;
    const key = hashOf([VERSION, FORM, metadata, made]);
    return {
      output,
      path: join(directory, file),
      record: { roll: home, frame: frame.id, output: output.name, file, key },
    };
  });
}

/** What the recipe says of a picture, its file's name left out: equal hashes mean that it asks for the same picture. */
export function recipeHash(frame: ResolvedFrame, output: ResolvedOutput): string {
  const { look, area, turn, mirror, spots, scans, channels, join: joined, light, base } = frame;
  const blanks = light.blanks ? { blanks: light.blanks.map(({ name }) => name) } : {};
  const from = light.blank ? { blank: light.blank.name, ...blanks } : { reference: base.read?.scan.name };
  const names = scans.map((scan) => scan.name);
  const bare = { ...from, flare: light.flare, spots: light.spots, times: light.times, lens: light.lens };
  const { file: _, ...form } = output;
  const scanKeys = { scans: names, ...(channels ? { channels } : {}), join: joined };
  return hashOf({ look, area, turn, mirror, spots, ...scanKeys, light: bare, output: form });
}

/** Everything outside the recipe that decides the picture. */
function sourceStamps(frame: ResolvedFrame, workspace: Workspace): string[] {
  return [...frame.scans, ...referencesOf(frame)].map(({ path }) => stampOf(workspace.absolute(path)));
}

/** What the worker gets of a picture, save what it may replace. */
export function pictureRequest(
  roll: ResolvedRoll,
  frame: ResolvedFrame,
  picture: PlannedPicture,
  workspace: Workspace,
): Omit<PictureRequest, "replace" | "folder"> {
  const { output, path } = picture;
  const { type, depth, space, quality, compression, print } = output;
  const { paper, printer } = print ? sheetRequest(print, workspace) : {};
  return {
    output: output.name,
    path,
    form: { space, long: output.long, sharpen: output.sharpen, ...(paper ? { paper } : {}) },
    spec: { type, depth, space, quality, compression, ...(paper ? { sheet: { resolution: paper.resolution } } : {}) },
    metadata: pictureMetadata(roll, frame, recipeHash(frame, output)),
    ...(printer ? { printer } : {}),
  };
}

/** The paper, and how colours become the printer's. */
function sheetRequest(print: ResolvedPrint, workspace: Workspace) {
  const { profile: _, intent: _intent, compensate: _compensate, ...paper } = print;
  return { paper, printer: printerRequest(print, workspace) };
}

/** What a worker needs to know of a printer; undefined without a profile. Throws for a path that leaves the workspace. */
export function printerRequest(
  { profile, intent, compensate }: ResolvedPrint,
  workspace: Workspace,
): PrinterRequest | undefined {
  if (!profile) return undefined;
  const file = workspace.absolute(profile.path);
  return { file, intent, compensate: intent === "relative-colorimetric" && compensate };
}
