/** The recipe of a roll that was created, with a comment on each measured block. */
import type { RollBalance } from "../../../engine/auto/balance.ts";
import { fittingRange, nearestGrade } from "../../../engine/film/paper.ts";
import { quantile } from "../../../engine/math/statistics.ts";
import type { StatedFormat } from "../../../engine/film/formats.ts";
import type { ShutterReading } from "../../../engine/flat-field/shutter-times.ts";
import type { Area, Film, Matrix3 } from "../../../engine/types.ts";
import { composeRecipe, type CommentInsert } from "../../../recipe/edit/compose.ts";
import type { ValueEdit } from "../../../recipe/edit/edit.ts";
import { type RollContent, withDigests } from "../renew/automatic-values.ts";
import type { StartedFrame, StartedRoll } from "../started-roll.ts";

/** What the roll states that was not measured. */
export interface RollHead {
  readonly title: string;
  readonly stock?: string;
  readonly format?: StatedFormat;
  readonly scans: string;
  readonly mirror: boolean;
  readonly turn: number;
  /** Filtration of the stock; the roll's is stated whole. */
  readonly filtration: RollBalance["filtration"];
  readonly unmix?: Matrix3;
  /** Kind of film that the stock states. */
  readonly statedFilm?: Film;
}

/** A rectangle found with less confidence deserves a look. */
const MIN_CONFIDENCE = 0.8;

/** The recipe's text. */
export function rollText(head: RollHead, started: Omit<StartedRoll, "text">): string {
  const { frames } = started;
  const count = `${frames.length} ${frames.length === 1 ? "frame" : "frames"}`;
  return composeRecipe({
    kind: "roll",
    head: `Created from the scans: ${count}. What was measured has a comment; every value may be changed.${edgeText(started)}`,
    ...withDigests(rollContent(head, started)),
  });
}

/** What the recipe states, and the comment above each block that was found. */
export function rollContent(head: RollHead, started: Omit<StartedRoll, "text">): RollContent {
  const values: ValueEdit[] = [];
  const comments: CommentInsert[] = [];
  const state = (path: (string | number)[], value: unknown, comment?: string): void => {
    if (value === undefined) return;
    values.push({ path, value });
    if (comment) comments.push({ path, text: comment });
  };
  const { base, difference, flare, balance, film, frames, start } = started;
  state(["title"], head.title);
  state(["stock"], head.stock);
  if (film.film !== head.statedFilm)
    state(
      ["film"],
      film.film,
      film.from === "stated" ? undefined : `Inferred from the scans (${percent(film.certainty)} % sure).`,
    );
  state(["format"], head.format);
  state(["scans"], head.scans);
  state(["light", "blank"], started.blank);
  state(
    ["light", "flare"],
    flare,
    started.flareAssumed
      ? "Assumed: no holder is in view, so veiling light could not be read. Read yours from a step wedge."
      : "Measured: veiling light in the holder's shadow, the least of the scans, as far as dense tones leave room.",
  );
  if (started.shutter?.times === "nominal") state(["light", "times"], "nominal", shutterText(started.shutter));
  if (base) {
    const { density, scan, area, scatter } = base;
    const differenceText = difference ? ` ${difference.words}` : "";
    state(
      ["negative", "base"],
      { density, read: { scan, area, scatter } },
      `Measured${base.place === "between perforations" ? "" : " on the"} ${base.place}, give or take ${base.uncertainty} D; the scans of the roll agree within ${base.spread.toFixed(3)} D.${differenceText}`,
    );
  } else if (start?.base.from === "inferred")
    state(
      ["negative", "base", "density"],
      start.base.density.map(four),
      `Inferred from the thinnest parts of the pictures, give or take ${start.base.spread.toFixed(2)} D: no unexposed film ` +
        "is in view. Read the base on a leader or rebate to be surer.",
    );
  if (start?.negative) stateNegative(start, started, state);
  const rounded = head.unmix?.map((row) => row.map((v) => Number(v.toFixed(4))));
  state(
    ["negative", "unmix"],
    rounded,
    started.unmix && `Assumed, for the stock has no unmix: ${unmixText(started.unmix)}.`,
  );
  const { filtration } = balance;
  if (Object.values(filtration).some((v) => v !== 0)) {
    const add = (key: keyof typeof filtration): number => filtration[key] + head.filtration[key];
    state(
      ["positive", "filtration"],
      { cyan: add("cyan"), magenta: add("magenta"), yellow: add("yellow") },
      `Inferred from the pictures, relative to the stock: one balance for the roll. They alone ask for cyan ${signed(balance.fromPictures.cyan)}, yellow ` +
        `${signed(balance.fromPictures.yellow)}; ${Math.round(100 * balance.followed)} % of that is followed, for subjects have ` +
        "colours of their own.",
    );
  }
  if (start && film.film !== "slide") {
    const { contrast, toe, shoulder } = start.tone;
    state(
      ["positive", "contrast"],
      contrast,
      `Inferred from the tones of the roll, so that none of them is lost.${paperText(started.densityRanges ?? [])}`,
    );
    state(["positive", "toe"], toe);
    state(["positive", "shoulder"], shoulder);
  }
  for (const frame of frames) stateFrame(frame, head, state);
  return { values, comments };
}

/** Which paper fits the negatives of a black-and-white roll; nothing where no density range is known. */
function paperText(ranges: readonly number[]): string {
  if (ranges.length === 0) return "";
  const middle = fittingRange(quantile(ranges, 0.5));
  const [low, high] = [Math.min(...ranges).toFixed(2), Math.max(...ranges).toFixed(2)];
  const span = low === high ? `${low} D` : `${low} to ${high} D`;
  const grade = String(nearestGrade(middle).grade).replace("-", "−");
  return ` Measured: the densities of ${ranges.length === 1 ? "the picture span" : "the pictures span"} ${span}; paper of R${middle} fits the middle of them, nearest grade ${grade}.`;
}

/** Why the shutter times are taken as marks. */
export function shutterText({ from, written, nominal }: ShutterReading): string {
  const [apart, agree] = [written.toFixed(3), nominal.toFixed(3)];
  return from === "scans"
    ? `Measured: by the marked series (1/30 is 1/32 s) the bases at different shutter times agree within ${agree} D, ` +
        `by the times as written within ${apart} D.`
    : `Inferred: by the marked series (1/30 is 1/32 s) the base is the stock's within ${agree} D, by the times as ` +
        `written within ${apart} D.`;
}

type State = (path: (string | number)[], value: unknown, comment?: string) => void;

function stateNegative(
  { negative, base, axis, cast }: NonNullable<StartedRoll["start"]>,
  { frames, filmStock }: Pick<StartedRoll, "frames" | "filmStock">,
  state: State,
): void {
  const { curve, unmix, colour, crosstalk } = negative!;
  state(
    ["negative", "curve"],
    { ...curve },
    `Inferred: the neutral axis of ${frames.length === 1 ? "the picture" : `${frames.length} pictures`}, weighed against ` +
      `${filmStock ? `the published data of ${filmStock.name}` : "published films"}. ${percent(axis!.share)} % of the pictures lie near it; greys are expected within ΔC*ab ` +
      `${cast!.toFixed(0)}${base.from === "inferred" ? ", and brightness goes by an inferred base" : ""}.`,
  );
  if (unmix)
    state(
      ["negative", "unmix"],
      unmix.map((row) => row.map(four)),
      filmStock
        ? "Inferred: the stock's, scaled to this roll's curve."
        : crosstalk === "model"
          ? "Assumed: the mean of published films through this camera model under copy lights."
          : "Assumed: the mean of published films, cameras and copy lights.",
    );
  if (colour && !filmStock) state(["negative", "colour"], balanced(colour), "Assumed: the median of published films.");
}

/** What the film's edge says, and whether the frames are numbered by it. */
function edgeText({ edge, frames }: Pick<StartedRoll, "edge" | "frames">): string {
  if (!edge) return "";
  const names = edge.names.map(({ name }) => name).slice(0, 3);
  const more = edge.names.length > 3 ? ` and ${edge.names.length - 3} more` : "";
  const films = names.length > 0 ? `: ${names.join(" or ")}${more}` : "";
  const numbered = frames.every(({ id }) => edge.frames.includes(id))
    ? " The frames have the numbers on the edge."
    : "";
  return `\nEdge code ${edge.film} on ${edge.pictures} of ${edge.of} pictures${films}.${numbered}`;
}

/** Rows of four decimals that still add up to 1. */
export const balanced = (matrix: Matrix3): number[][] =>
  matrix.map((row) => {
    const [a, b] = [Number(row[0].toFixed(4)), Number(row[1].toFixed(4))];
    return [a, b, Number((1 - a - b).toFixed(4))];
  });

/** Four decimals. */
export const four = (v: number): number => Number(v.toFixed(4)) + 0;
const percent = (v: number): number => Math.round(100 * v);

function stateFrame(
  { id, scans, merged, part, unused, join, found, exposure, contrast }: StartedFrame,
  head: RollHead,
  state: State,
): void {
  const at = (...path: string[]): string[] => ["frames", id, ...path];
  if (join) {
    state(at("scans"), scans);
    state(
      at("join"),
      join.places,
      `Parts of one picture; what they share agrees within ${join.residual.toFixed(2)} px.`,
    );
  } else if (merged) state(at("exposures"), scans, "The same picture at shutter times that lie apart.");
  else state(at("scan"), scans[0], part && `Picture ${part[0]} of ${part[1]} on this scan.`);
  if (unused.length > 0) state(at("unused"), unused, "The same picture, photographed before.");
  if (found) state(at("area"), areaText(found.area), commentOn(found));
  if (head.turn !== 0) state(at("turn"), head.turn);
  if (head.mirror) state(at("mirror"), true);
  const positive = { ...(exposure === 0 ? {} : { exposure }), ...(contrast === undefined ? {} : { contrast }) };
  if (Object.keys(positive).length > 0) state(at("positive"), positive);
}

/** The crop stays a hair inside the edges that were found, in fractions of a side: they are soft, and one would see it. */
const INSET = 0.0012;

/** An area as recipes state it: a hair inside the edges that were found, in fractions to four places. */
export function areaText({ left, top, width, height, tilt }: Area): Area {
  const clamped = (v: number): number => Number(Math.min(1, Math.max(0, v)).toFixed(4));
  const [l, t] = [clamped(left + INSET), clamped(top + INSET)];
  return {
    left: l,
    top: t,
    // What lies out of the scan is no part of the area.
    width: Math.min(clamped(width - 2 * INSET + Math.min(0, left + INSET)), Number((1 - l).toFixed(4))),
    height: Math.min(clamped(height - 2 * INSET + Math.min(0, top + INSET)), Number((1 - t).toFixed(4))),
    tilt: Number(tilt.toFixed(2)) + 0,
  };
}

/** Silent where all is well: thirty-six times "found" says nothing. */
function commentOn({ sides, confidence }: NonNullable<StartedFrame["found"]>): string | undefined {
  const hidden = Object.entries(sides).flatMap(([side, how]) => (how === "edge" || how === "holder" ? [] : [side]));
  const confidencePercent = Math.round(100 * confidence);
  const cut = Object.entries(sides).flatMap(([side, how]) => (how === "outside" ? [side] : []));
  if (cut.length > 0) return `Cut off at ${cut.join(" and ")}: by the size of the roll's other frames.`;
  const by = sides[hidden[0] as keyof typeof sides] === "roll" ? "as the roll's other frames lie" : "by the format";
  if (hidden.length === 4) return `Look at this one: no side was seen, placed ${by}.`;
  if (hidden.length > 0)
    return `Too dark to see at ${hidden.join(" and ")}: placed ${by} (${confidencePercent} % sure).`;
  return confidence < MIN_CONFIDENCE ? `Look at this one: ${confidencePercent} % sure.` : undefined;
}

/** Where a roll's unmix comes from, as the rest of a sentence. */
export function unmixText({ camera, from }: NonNullable<StartedRoll["unmix"]>): string {
  const words = {
    model: `for scans by ${camera}, from what is published of its sensitivities`,
    "colour matrix": `worked out from the colour matrix of ${camera}, of which no more is known`,
    "narrow bands": "for scans in three-colour light, from published spectra of dyes and of red, green and blue LEDs",
    generic: `for a camera of the usual kind, for nothing is known of ${camera}`,
  };
  return words[from];
}

const signed = (v: number): string => `${v < 0 ? "−" : "+"}${Math.abs(v).toFixed(1)} CC`;
