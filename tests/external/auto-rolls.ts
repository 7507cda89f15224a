/**
 * Rolls with truth for the automatic start: scenes on published films through published cameras and lights, as blocks;
 * and what the start makes of their grey scale. The film's family, its dyes, camera and light are left out of the prior.
 */
import {
  type StartRequest,
  type StartValues,
  startValues,
  type Priors,
} from "../../extension/engine/auto/start-values.ts";
import { type Draw, drawNeutrals, tableOf } from "../../extension/engine/calibrate/neutral-table.ts";
import { evaluator, type Reading } from "../../extension/engine/film/reference-pixel.ts";
import type { FrameLook, Rgb } from "../../extension/engine/types.ts";
import { type BlockRoll, neutralDensities, type SceneBlocks, seeRoll } from "../witness/block-rolls.ts";
import type { Light } from "../witness/camera/cameras.ts";
import { DYE_NAMES, publishedCamera, publishedLight, publishedStock } from "../witness/film/published.ts";
import { random } from "../witness/random.ts";
import type { Scene } from "../witness/scenes/scene.ts";
import { subject, type SubjectName } from "../witness/scenes/subjects.ts";
import { type FamilyName, variant } from "../witness/scenes/varied.ts";
import { PANELS } from "./copy-lights.ts";
import { CAMERA_MODELS, NEGATIVES, tableInputs } from "./published-negatives.ts";

/** The grid of a frame's blocks (engine/auto/balance.ts). */
const [COLUMNS, ROWS] = [60, 40];

/** A roll with the names that its prior must not know. */
export interface AutoRoll extends BlockRoll {
  readonly family: string;
  readonly dyes: string;
  readonly cameraName: string;
  readonly lightName: string;
}

export interface RollChoice {
  readonly frames?: number;
  /** Standard deviation of the exposures, stops, and of the light's colour, log10. */
  readonly stops?: number;
  readonly tint?: number;
  /** Named parts; drawn by the seed where left out. */
  readonly film?: string;
  readonly dyes?: string;
  readonly camera?: string;
  readonly light?: string | Light;
}

/** A roll drawn by a seed. */
export function autoRoll(seed: number, scenes: readonly SceneBlocks[], choice: RollChoice = {}): AutoRoll {
  const r = random(seed, "automatic start");
  const draw = <T>(list: readonly T[]): T => list[Math.floor(r.uniform() * list.length)];
  const drawn = draw(NEGATIVES);
  const film = NEGATIVES.find(({ name }) => name === choice.film) ?? drawn;
  const dyes = choice.dyes ?? draw(DYE_NAMES);
  const cameraName = choice.camera ?? draw(CAMERA_MODELS).name;
  const chosen = choice.light ?? draw(PANELS);
  const light = typeof chosen === "string" ? publishedLight(chosen) : chosen;
  const { frames = 7, stops = 0.4, tint = 0.02 } = choice;
  const order = scenes.map((scene) => ({ scene, at: r.uniform() })).sort((a, b) => a.at - b.at);
  return {
    stock: publishedStock(film.name, { dyes, axis: film.axis, tungsten: film.light === "A" }),
    camera: publishedCamera(cameraName),
    light,
    frames: order.slice(0, frames).map(({ scene }) => ({
      scene,
      stops: stops * r.normal(),
      light: [tint * r.normal(), tint * r.normal()],
    })),
    family: film.family,
    dyes,
    cameraName,
    lightName: light.name,
  };
}

/** A scene as block means. */
export function blocksOf({ width, height, data }: Scene): SceneBlocks {
  const out = new Float32Array(COLUMNS * ROWS * 3);
  const [a, b] = [width / COLUMNS, height / ROWS];
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const block = Math.floor(y / b) * COLUMNS + Math.floor(x / a);
      for (let c = 0; c < 3; c++) out[block * 3 + c] += data[(y * width + x) * 3 + c] / (a * b);
    }
  return out;
}

const SUBJECTS: readonly SubjectName[] = ["portrait", "street", "meadow", "table", "forest", "night", "snow"];
const FAMILIES: readonly FamilyName[] = ["landscape", "town", "people", "room", "shore", "wood", "nightTown"];

/** Seven subjects of the tests, or of families whose every seed is another picture. */
export function drawnScenes(seed: number, kind: "subjects" | "families"): SceneBlocks[] {
  const size = [4 * COLUMNS, 4 * ROWS] as const;
  return kind === "subjects"
    ? SUBJECTS.map((name, i) => blocksOf(subject(name, ...size, seed + i)))
    : FAMILIES.map((name, i) => blocksOf(variant(name, seed + i, ...size)));
}

let draws: readonly Draw[] | undefined;
const inputs = tableInputs();
const known = new Map<string, Priors>();

/** The priors without all that a roll is made of. */
export function priorsWithout({ family, dyes, cameraName, lightName }: AutoRoll): Priors {
  const key = [family, dyes, cameraName, lightName].join("|");
  let priors = known.get(key);
  if (!priors) {
    draws ??= drawNeutrals(inputs);
    const rest = draws.filter(
      (d) => d.family !== family && d.dyes !== dyes && d.camera !== cameraName && d.light !== lightName,
    );
    const { raw, display } = tableOf(rest, inputs);
    known.set(key, (priors = { raw, display }));
  }
  return priors;
}

/** A look with the recipe's defaults. */
export const PLAIN: FrameLook = {
  film: "colour-negative",
  base: [0, 0, 0],
  gamma: [0.55, 0.55, 0.55],
  unmix: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  colour: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  exposure: 0,
  filtration: { cyan: 0, magenta: 0, yellow: 0 },
  saturation: 1,
  tone: { contrast: 1.35, toe: 0.3, shoulder: 0.4, black: 0.5, points: [] },
};

/** What is known of a roll when it is begun. */
export type Knowledge = "blank and base" | "blank" | "nothing";

/** A roll that was begun: its values, and the look of its positives before the frames' own exposures and tones. */
export interface Begun {
  readonly values: StartValues;
  readonly look: FrameLook;
  /** What a camera without a blank adds to transmittance, per channel. */
  readonly gain: Rgb;
  /** The frames' blocks as the start got them. */
  readonly frames: readonly Float32Array[];
}

/** Without a blank the light's colour and the camera's gains stay in all densities. */
const UNMEASURED: Rgb = [0.35, 0.6, 0.4];

export interface BeginOptions {
  readonly knowledge?: Knowledge;
  /** Frames that are begun; all where left out. */
  readonly only?: readonly number[];
  /** What is published of the film, where it is named. */
  readonly published?: StartRequest["published"];
}

/** Begins a roll as it is seen. */
export function beginRoll(roll: AutoRoll, seed: number, options: BeginOptions = {}): Begun {
  const { knowledge = "blank and base", only, published } = options;
  const seen = seeRoll(roll, seed);
  const blank = knowledge !== "nothing";
  const gain: Rgb = blank ? [1, 1, 1] : UNMEASURED;
  const frames = (only ? only.map((i) => seen.frames[i]) : seen.frames).map((f) => f.map((v, i) => v * gain[i % 3]));
  const request: StartRequest = {
    frames,
    source: "raw",
    blank,
    film: "colour-negative",
    ...(knowledge === "blank and base" ? { base: seen.base as Rgb } : {}),
    camera: { model: roll.camera.model },
    ...(published ? { published } : {}),
    look: PLAIN,
  };
  const values = startValues(request, priorsWithout(roll));
  return { values, look: lookOf(values), gain, frames };
}

/** The look that a start's values give, before exposures of frames. */
export function lookOf({ negative, base, tone }: StartValues): FrameLook {
  const { curve, unmix, colour } = negative!;
  return {
    ...PLAIN,
    tone: { ...PLAIN.tone, ...tone },
    base: base.density,
    curve,
    ...(unmix ? { unmix } : {}),
    ...(colour ? { colour } : {}),
  };
}

export interface Judged {
  readonly values: StartValues;
  readonly look: FrameLook;
  /** C*ab of 15 greys in the positive, reflectance 0.9 to 0.018 as metered. */
  readonly chroma: readonly number[];
  /** EV by which an 18 % grey as metered comes out too light, before the frames' own exposures. */
  readonly brightness: number;
  readonly greys: readonly Reading[];
}

/** log10 exposures above mid-grey of 15 greys, reflectance 0.9 to 0.018. */
export const GREYS = Array.from({ length: 15 }, (_, i) => Math.log10((0.9 * (0.018 / 0.9) ** (i / 14)) / 0.18));

/** Begins a roll as it is seen, and reads its grey scale through the start. */
export function judgeRoll(roll: AutoRoll, seed: number, knowledge: Knowledge = "blank and base", one?: number): Judged {
  return judgeBegun(roll, beginRoll(roll, seed, { knowledge, ...(one === undefined ? {} : { only: [one] }) }));
}

/** Reads the grey scale of a roll through what it was begun with. */
export function judgeBegun(roll: AutoRoll, { values, look, gain }: Begun): Judged {
  const read = evaluator(look, "srgb");
  const through = (d: readonly number[]): Reading => read(d.map((v, c) => gain[c] * 10 ** -v) as unknown as Rgb);
  const greys = neutralDensities(roll, GREYS).map(through);
  const [mid] = neutralDensities(roll, [0]).map(through);
  return {
    values,
    look,
    greys,
    chroma: greys.map(({ lab }) => Math.hypot(lab[1], lab[2])),
    brightness: mid.logExposure[1] / Math.LOG10E / Math.LN2,
  };
}
