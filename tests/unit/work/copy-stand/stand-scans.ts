/**
 * Scans as they arrive at a copy stand: small pieces of film that the witness photographs into DNG files, as many pixels
 * a millimetre as a 24-megapixel camera gives 135.
 */
import { develop } from "../../../witness/film/film.ts";
import { FAULTS, type FaultName, type Level } from "../../../witness/faults/faults.ts";
import { photographFilm, type Scan, type ScanRequest } from "../../../witness/camera/camera.ts";
import { GOOD_PLACEMENT } from "../../../witness/camera/setup.ts";
import { RGGB, writeDng } from "../../../witness/raw/dng.ts";
import { request, RIG, SMALL_FORMAT } from "../../engine/survey/rig.ts";
import { SUBJECTS, type SubjectName } from "../../engine/survey/subjects/subjects.ts";

export interface StandScan {
  readonly subject: SubjectName | "blank" | "leader";
  /** Number on the film's edge. */
  readonly frame?: string;
  /** Height of the number in mm; film makers burn in numbers of 1 mm and more, where the margin has room for them. */
  readonly figures?: number;
  readonly fault?: FaultName;
  readonly level?: Level;
  /** Any other change of the set-up. */
  readonly change?: (request: ScanRequest) => ScanRequest;
}

/** Another seed draws other grain, noise, dust and places of faults: SCANS_SEED=2 (whole numbers from 0). */
const SEED = Number(process.env["SCANS_SEED"] ?? 0);

/** As much margin around the picture as a holder for small film leaves. */
const PLACEMENT = { ...GOOD_PLACEMENT, width: 0.85 };

/** Minutes after ten at which the camera says that a scan was taken. */
export function scanBytes(
  { subject, frame = "12", figures, fault, level = "strong", change }: StandScan,
  minute: number,
): Uint8Array {
  const film = subject === "blank" ? subject : subject === "leader" ? leader() : filmOf(subject, frame, figures);
  const exposed = { ...request(RIG, film), placement: subject === "leader" ? undefined : PLACEMENT };
  const faulty = fault ? FAULTS[fault](exposed, level, 1, 3 + SEED) : exposed;
  return dngOf(photographFilm(change ? change(faulty) : faulty, 50 + minute + 1000 * SEED), minute);
}

/** The same piece of film every time, whatever else is drawn: grain is drawn by the frame's number. */
function filmOf(subject: SubjectName, frame: string, figures?: number) {
  const format =
    figures === undefined ? SMALL_FORMAT : { ...SMALL_FORMAT, marking: { height: figures, fromEdge: 0.95 - figures } };
  const scene = SUBJECTS[subject](SMALL_FORMAT.picture[0] * 110, SMALL_FORMAT.picture[1] * 110);
  return develop(
    scene,
    RIG.stock,
    { format, frame, margin: [1, 1], pixelsPerMm: 110 },
    1000 + Number(frame) + 100 * SEED,
  );
}

function leader() {
  return develop("leader", RIG.stock, { format: SMALL_FORMAT, pixelsPerMm: 110 }, 3);
}

function dngOf(scan: Scan, minute: number): Uint8Array {
  const { shutter, aperture, iso, lens, make, model } = scan.meta;
  return writeDng({
    width: scan.width,
    height: scan.height,
    data: scan.mosaic,
    pattern: RGGB,
    bits: scan.bits,
    black: scan.black,
    white: scan.white,
    make,
    model,
    exif: { shutter, aperture, iso, time: `2026:05:16 10:${String(minute).padStart(2, "0")}:00`, lens, focal: 60 },
  });
}

/** Twelve scans of which five have one fault each, with what must be said of each. */
export const TWELVE: readonly (StandScan & { readonly verdict: "good" | "look" | "again"; readonly code?: string })[] =
  [
    { subject: "portrait", frame: "12", verdict: "good" },
    { subject: "night", frame: "13", verdict: "good" },
    { subject: "meadow", frame: "14", fault: "clipped", verdict: "again", code: "clipped" },
    { subject: "quay", frame: "15", verdict: "good" },
    { subject: "faces", frame: "16", fault: "unsharp", verdict: "again", code: "softer" },
    { subject: "fair", frame: "17", verdict: "good" },
    { subject: "night", frame: "18", fault: "lightLeak", verdict: "again", code: "light-leak" },
    { subject: "glitter", frame: "19", verdict: "good" },
    { subject: "portrait", frame: "20", fault: "shaken", verdict: "again", code: "shaken" },
    { subject: "gulls", frame: "21", verdict: "good" },
    { subject: "portrait", frame: "22", fault: "dusty", verdict: "look", code: "dust" },
    { subject: "rigging", frame: "23", verdict: "good" },
  ];
