/**
 * What the dust finder is trained on: subjects drawn by lot, under several cameras, lights and films, photographed by the
 * witness with real outlines of dust (frames of the training set alone) and with invented specks.
 */
import { relativeExposure } from "../../extension/engine/flat-field/exposure.ts";
import { makeLightField } from "../../extension/engine/flat-field/light-field.ts";
import { insideOf } from "../../extension/engine/survey/border.ts";
import { filmPlane } from "../../extension/engine/flat-field/film-plane.ts";
import { type Candidate, candidatesOf } from "../../extension/engine/dust/candidates.ts";
import type { Film } from "../../extension/engine/types.ts";
import { meets } from "../unit/engine/survey/dust-score.ts";
import { GOOD_FLARE, halfScan, request, type Rig, SMALL_FORMAT } from "../unit/engine/survey/rig.ts";
import { CAMERA_A, CAMERA_B, PANEL, WARM_PANEL } from "../witness/camera/cameras.ts";
import { photographFilm, type Scan } from "../witness/camera/camera.ts";
import { type Dust, scatterDust } from "../witness/faults/dust.ts";
import { realDust } from "../witness/faults/dust-outlines.ts";
import { develop } from "../witness/film/film.ts";
import { random } from "../witness/random.ts";
import { COALFISH_125, LANTERN_64, NORTHLIGHT_400, SKERRY_100 } from "../witness/film/stocks.ts";
import { trainingSubject } from "./dust-training.ts";

/** Rigs by the kind of film that is in them. */
const RIGS: Readonly<Record<Film, readonly Rig[]>> = {
  "colour-negative": [
    { camera: CAMERA_A, light: PANEL, stock: NORTHLIGHT_400 },
    { camera: CAMERA_B, light: WARM_PANEL, stock: SKERRY_100 },
    { camera: CAMERA_A, light: WARM_PANEL, stock: SKERRY_100 },
    { camera: CAMERA_B, light: PANEL, stock: NORTHLIGHT_400 },
  ],
  "black-and-white-negative": [
    { camera: CAMERA_A, light: PANEL, stock: COALFISH_125 },
    { camera: CAMERA_B, light: WARM_PANEL, stock: COALFISH_125 },
  ],
  slide: [
    { camera: CAMERA_A, light: PANEL, stock: LANTERN_64 },
    { camera: CAMERA_B, light: WARM_PANEL, stock: LANTERN_64 },
  ],
};
/** Invented specks on the second frame of a subject, by turns none to many. */
const SPECKS = [40, 0, 2, 5, 10, 18, 28, 70];
/** Sizes of real outlines against what they are: a camera with fewer pixels shows them smaller. */
const SCALES = [1, 1, 0.7, 0.5];
/** Specks smaller than 3 pixels, which need not be found, count this much. */
const SMALL = 0.3;

/** One frame's dark blobs. */
export interface ExampleScan {
  readonly film: Film;
  readonly subject: number;
  readonly candidates: readonly Candidate[];
  /** Which of them are dust, and how much each counts. */
  readonly dust: readonly boolean[];
  readonly counts: readonly number[];
}

const blanks = new Map<Rig, ReturnType<typeof readBlank>>();

function readBlank(rig: Rig) {
  const { scan, info } = halfScan(photographFilm(request(rig, "blank"), 90));
  return { info, field: makeLightField(scan, info) };
}

/** The frames of one subject: real outlines, then invented specks. */
export function exampleScans(subject: number, kind: Film): ExampleScan[] {
  const rigs = RIGS[kind];
  const rig = rigs[(subject + (subject >> 2)) % rigs.length];
  const blank = blanks.get(rig) ?? readBlank(rig);
  blanks.set(rig, blank);
  const [fine, [wide, high]] = [110, SMALL_FORMAT.picture];
  const film = develop(
    trainingSubject(subject, wide * fine, high * fine),
    rig.stock,
    { format: SMALL_FORMAT, frame: "12", margin: [1, 1], pixelsPerMm: fine },
    1000 + subject,
  );
  const r = random(subject, "examples");
  const specks = SPECKS[subject % SPECKS.length];
  const laid: readonly (readonly Dust[])[] = [
    realDust(SMALL_FORMAT, "train", 5000 + subject, {
      max: Math.round(r.between(5, 70)),
      scale: SCALES[Math.floor(r.uniform() * SCALES.length)],
    }),
    scatterDust(SMALL_FORMAT, { specks, smallest: 0.014, largest: 0.06 }, 6000 + subject),
  ];
  return laid.map((dust, k) => {
    const taken = photographFilm({ ...request(rig, film), dust }, 7000 + 2 * subject + k);
    const { scan, info } = halfScan(taken);
    const { ratio } = relativeExposure(info, blank.info);
    const plane = filmPlane(scan, { field: blank.field, flare: GOOD_FLARE, ratio });
    const candidates = candidatesOf(scan, plane, insideOf(plane, taken.truth.area!, 0.006));
    const answers = candidates.map((candidate) => answerOf(candidate, taken, scan.width));
    return {
      film: kind,
      subject,
      candidates,
      dust: answers.map(([dust]) => dust),
      counts: answers.map(([, counts]) => counts),
    };
  });
}

/** Whether a thing is dust, and how much it counts. */
function answerOf(candidate: Candidate, { truth, width }: Scan, half: number): [dust: boolean, counts: number] {
  const found = { ...candidate, centreline: candidate.component.centreline?.points };
  const hit = truth.dust.filter((t) => meets(found, t, width / half));
  return [hit.length > 0, hit.length > 0 && hit.every((t) => t.kind === "speck" && t.radius < 1.5) ? SMALL : 1];
}
