/** The print values that have a slider: their words, ranges and places in a recipe and in a look. */
import { lookWithTone } from "../../extension/engine/film/paper.ts";
import type { FrameLook, Hue, Toning } from "../../extension/engine/types.ts";
import type { RecipePath } from "../../extension/messages.ts";
import { t } from "../translate.ts";

export type ControlKey =
  | "exposure"
  | "cyan"
  | "magenta"
  | "yellow"
  | "contrast"
  | "toe"
  | "shoulder"
  | "black"
  | "saturation"
  | "shadowHue"
  | "shadowStrength"
  | "highlightHue"
  | "highlightStrength"
  | "paperHue"
  | "paperStrength";

export interface Control {
  readonly key: ControlKey;
  readonly label: string;
  readonly unit: string;
  /** What moving it to the right does, for the tooltip and for screen readers. */
  readonly effect: string;
  /** Place below a frame, or below the roll. */
  readonly path: RecipePath;
  /** The version of the recipe that it is for; both where absent. */
  readonly version?: 1 | 2;
  /** The slider's ends; what the recipe allows may reach further. */
  readonly from: number;
  readonly to: number;
  readonly min: number;
  readonly max: number;
  readonly step: number;
  readonly decimals: number;
  of(look: FrameLook): number;
  with(look: FrameLook, value: number): FrameLook;
}

type Range = readonly [from: number, to: number, min: number, max: number, step: number, decimals: number];

/** Words are asked for when they are shown: this file is read before the page knows its language. */
type Text = () => string;
const NO_TEXT: Text = () => "";

function control(
  key: ControlKey,
  label: Text,
  unit: Text,
  effect: Text,
  below: RecipePath,
  [from, to, min, max, step, decimals]: Range,
  of: Control["of"],
  put: Control["with"],
  version?: 1 | 2,
): Control {
  return {
    key,
    get label() {
      return label();
    },
    get unit() {
      return unit();
    },
    get effect() {
      return effect();
    },
    path: ["positive", ...below],
    from,
    to,
    min,
    max,
    step,
    decimals,
    of,
    with: put,
    ...(version === undefined ? {} : { version }),
  };
}

const CC: Range = [-60, 60, -200, 200, 1, 1];
const SHARE: Range = [0, 1, 0, 1, 0.01, 2];
const OPENING: Range = [-1, 1, -1, 1, 0.01, 2];

const filter = (key: "cyan" | "magenta" | "yellow", label: Text, effect: Text): Control =>
  control(
    key,
    label,
    () => t("CC"),
    effect,
    ["filtration", key],
    CC,
    (look) => look.filtration[key],
    (look, value) => ({ ...look, filtration: { ...look.filtration, [key]: value } }),
  );

const tone = (
  key: "contrast" | "toe" | "shoulder" | "black",
  label: Text,
  unit: Text,
  effect: Text,
  range: Range,
  version?: 1 | 2,
): Control =>
  control(
    key,
    label,
    unit,
    effect,
    [key],
    range,
    (look) => look.tone[key],
    (look, value) => (key === "contrast" ? withSlope(look, value) : lookWithTone(look, { [key]: value })),
    version,
  );

/** A slope stands in place of a paper's range. */
function withSlope(look: FrameLook, contrast: number): FrameLook {
  const { range: _, ...tone } = look.tone;
  return { ...look, tone: { ...tone, contrast } };
}

/** Hue of a part of the print that has none yet: what the schema has as its default. */
const NO_HUE: Hue = { hue: 60, strength: 0 };
const NEUTRAL: Toning = { shadows: NO_HUE, highlights: NO_HUE, paper: NO_HUE };

/** Hue and strength of a part of the print. */
function hues(
  part: keyof Toning,
  keys: readonly [hue: ControlKey, strength: ControlKey],
  [hue, hueEffect]: readonly [Text, Text],
  [strength, strengthEffect]: readonly [Text, Text],
  strongest: number,
): Control[] {
  const put =
    (key: keyof Hue) =>
    (look: FrameLook, value: number): FrameLook => {
      const now = look.toning ?? NEUTRAL;
      return { ...look, toning: { ...now, [part]: { ...now[part], [key]: value } } };
    };
  const of = (key: keyof Hue) => (look: FrameLook) => (look.toning ?? NEUTRAL)[part][key];
  const angle: Range = [0, 360, 0, 360, 1, 0];
  const chroma: Range = [0, strongest / 2, 0, strongest, 0.5, 1];
  return [
    control(keys[0], hue, () => t("°"), hueEffect, ["toning", part, "hue"], angle, of("hue"), put("hue")),
    control(
      keys[1],
      strength,
      () => t("C*"),
      strengthEffect,
      ["toning", part, "strength"],
      chroma,
      of("strength"),
      put("strength"),
    ),
  ];
}

/** Toe and shoulder are one slider in each version: their ranges and what they do differ. */
const toneEnd = (key: "toe" | "shoulder", version: 1 | 2, label: Text, effect: Text): Control =>
  tone(key, label, NO_TEXT, effect, version === 1 ? SHARE : OPENING, version);

export const CONTROLS: readonly Control[] = [
  control(
    "exposure",
    () => t("Exposure"),
    () => t("EV"),
    () => t("1 EV more doubles the light of the positive."),
    ["exposure"],
    [-4, 4, -10, 10, 0.01, 2],
    (look) => look.exposure,
    (look, exposure) => ({ ...look, exposure }),
  ),
  filter(
    "cyan",
    () => t("Cyan"),
    () => t("More cyan filtration removes a cyan cast."),
  ),
  filter(
    "magenta",
    () => t("Magenta"),
    () => t("More magenta filtration removes a magenta cast."),
  ),
  filter(
    "yellow",
    () => t("Yellow"),
    () => t("More yellow filtration removes a yellow cast."),
  ),
  tone(
    "contrast",
    () => t("Contrast"),
    NO_TEXT,
    () => t("Steepness of the print curve at mid-grey, which itself stays where it is."),
    [0.5, 3, 0.2, 5, 0.01, 2],
  ),
  toneEnd(
    "toe",
    2,
    () => t("Toe"),
    () => t("Above 0 opens the shadows, below 0 closes them; mid-grey stays."),
  ),
  toneEnd(
    "toe",
    1,
    () => t("Toe"),
    () => t("How early the shadows begin to flatten."),
  ),
  toneEnd(
    "shoulder",
    2,
    () => t("Shoulder"),
    () => t("Above 0 opens the highlights, below 0 holds them back; mid-grey stays."),
  ),
  toneEnd(
    "shoulder",
    1,
    () => t("Shoulder"),
    () => t("How early the highlights begin to flatten."),
  ),
  tone(
    "black",
    () => t("Black"),
    () => t("L*"),
    () => t("Lightness of the deepest black."),
    [0, 20, 0, 30, 0.1, 1],
  ),
  control(
    "saturation",
    () => t("Saturation"),
    NO_TEXT,
    () => t("Strength of colours: 0 is grey, 1 leaves them as they are."),
    ["saturation"],
    [0, 2, 0, 3, 0.01, 2],
    (look) => look.saturation,
    (look, saturation) => ({ ...look, saturation }),
  ),
  ...hues(
    "shadows",
    ["shadowHue", "shadowStrength"],
    [() => t("Shadow hue"), () => t("Hue of toned shadows: 0 red, 90 yellow, 180 green, 270 blue.")],
    [() => t("Shadow toning"), () => t("How strongly shadows are toned; their lightness stays.")],
    60,
  ),
  ...hues(
    "highlights",
    ["highlightHue", "highlightStrength"],
    [() => t("Highlight hue"), () => t("Hue of toned highlights: 0 red, 90 yellow, 180 green, 270 blue.")],
    [() => t("Highlight toning"), () => t("How strongly highlights are toned; their lightness stays.")],
    60,
  ),
  ...hues(
    "paper",
    ["paperHue", "paperStrength"],
    [() => t("Paper hue"), () => t("Hue of the paper's base: 0 red, 90 yellow, 180 green, 270 blue.")],
    [() => t("Paper colour"), () => t("How strongly the paper's base is coloured.")],
    30,
  ),
];

const TONED = new Set<ControlKey>(["shadowHue", "shadowStrength", "highlightHue", "highlightStrength"]);
const COLOURED = new Set<ControlKey>(["cyan", "magenta", "yellow", "saturation"]);

/** Controls that mean something for a film, and are of the recipe's version. */
export function controlsFor({ film, tone }: Pick<FrameLook, "film" | "tone">): readonly Control[] {
  const version = tone.version ?? 1;
  const without = film === "black-and-white-negative" ? COLOURED : TONED;
  return CONTROLS.filter((c) => !without.has(c.key) && (c.version ?? version) === version);
}

/** A number as it goes into the recipe: as many decimals as the control has, no minus zero. */
export function rounded(value: number, decimals: number): number {
  return Number(value.toFixed(decimals)) + 0;
}

/** Held to what the recipe allows, and rounded. */
export const allowed = (control: Control, value: number): number =>
  rounded(Math.min(control.max, Math.max(control.min, value)), control.decimals);

/** As people read it: exposure and filtration with their sign. */
export function accessibleText(control: Control, value: number): string {
  const signed = control.min < 0 && value > 0 ? "+" : "";
  const text = `${signed}${value.toFixed(control.decimals)}`.replace("-", "−");
  return control.unit === "" ? text : `${text} ${control.unit}`;
}
