/** What one more scan changes in the recipe beside its own frame: light, base, negative, tones and earlier exposures. Pure. */
import type { Film, Rgb } from "../../../engine/types.ts";
import type { ValueEdit } from "../../../recipe/edit/edit.ts";
import { USUAL_FLARE } from "../../../engine/auto/roll/common-flare.ts";
import { balanced, four } from "../../new-roll/recipe/roll-text.ts";
import { filmOnEdge } from "../measure/film-edge.ts";
import type { MeasuredPicture } from "../measure/measure-arrival.ts";
import type { RollView } from "./roll-view.ts";
import { currentRoles, knownRollOf, type Session, usedPictures } from "../session.ts";
import { type Stated, textOf, type Written } from "./written.ts";

/** Differences too small to be worth a line in the history: density, CC, EV and contrast. */
const [SMALL_DENSITY, SMALL_CC, SMALL_EV, SMALL_CONTRAST] = [0.004, 1, 0.1, 0.05];
/** The same of a neutral axis, as density and as a part of a matrix. */
const SMALL_AXIS = 0.01;

export interface SharedEdits {
  readonly edits: readonly ValueEdit[];
  readonly written: Written;
}

/** @param view the roll as the newest scan's own edits leave it */
export function sharedEdits(session: Session, view: RollView, stated: Stated, written: Written): SharedEdits {
  const edits: ValueEdit[] = [];
  const noted: Record<string, string> = { ...written };
  /** Whether a value is as this session left it: all else belongs to a person, also what was removed. */
  const isOwn = (path: readonly string[]): boolean =>
    (noted[path.join(".")] ?? textOf(undefined)) === textOf(stated(path));
  const state = (path: string[], value: unknown, close: (now: unknown) => boolean = () => false): void => {
    const now = stated(path);
    if (value === undefined || !isOwn(path)) return;
    if (now !== undefined && (textOf(now) === textOf(value) || close(now))) return;
    edits.push({ path, value });
    noted[path.join(".")] = textOf(value);
  };
  stateLight(session, view, state);
  const pictures = usedPictures(session, view);
  const newest = session.findLast((one) => pictures.some(({ name }) => name === one.name));
  const { picture } = newest ?? {};
  if (!picture) return { edits, written: noted };
  stateFilm(pictures, picture, state);
  stateBase(session, view, picture, state);
  if (!view.stated.byHand) stateLook(view, picture, state, stated);
  const frames = new Map(pictures.map(({ name, frame }) => [name, frame]));
  picture.startedFrom.forEach((name, i) => {
    const [frame, { exposure, contrast }] = [frames.get(name), picture.start.frames[i]];
    // Frames that a person added stay as they are; the newest frame's own values are a part of its edit.
    if (frame === undefined || noted[`frames.${frame}`] === undefined || !stated(["frames", frame])) return;
    const at = ["frames", frame, "positive", "exposure"];
    if (exposure !== 0 || stated(at) !== undefined) state(at, exposure, near(exposure, SMALL_EV));
    if (contrast !== undefined)
      state(["frames", frame, "positive", "contrast"], contrast, near(contrast, SMALL_CONTRAST));
  });
  return { edits, written: noted };
}

type State = (path: string[], value: unknown, close?: (now: unknown) => boolean) => void;

/** Whether another number is about the same; for lists, whether all their numbers are. */
const near =
  (value: unknown, limit: number) =>
  (now: unknown): boolean => {
    const [a, b] = [numbersIn(now), numbersIn(value)];
    return a.length === b.length && a.every((v, i) => Math.abs(v - b[i]) < limit);
  };

const numbersIn = (value: unknown): number[] =>
  typeof value === "number"
    ? [value]
    : typeof value === "object" && value !== null
      ? Object.entries(value)
          .toSorted(([a], [b]) => (a < b ? -1 : 1))
          .flatMap(([, v]) => numbersIn(v))
      : [];

const rounded = (v: Rgb, digits: number): number[] => v.map((x) => Number(x.toFixed(digits)) + 0);

function stateLight(session: Session, view: RollView, state: State): void {
  const roles = currentRoles(session, view);
  if (!view.threeBlanks && (view.blank === undefined || view.blank === roles.blank?.name))
    state(["light", "blank"], roles.blank?.name);
  const pictures = usedPictures(session, view);
  if (view.flare || pictures.length === 0 || pictures[0].picture?.film.film === "slide") return;
  // What no holder shows is taken as usual, as for a roll that is created from a folder.
  const flare = knownRollOf(session, view).flare ?? (roles.blank ? USUAL_FLARE : undefined);
  if (flare) state(["light", "flare"], rounded(flare, 4), near(flare, SMALL_DENSITY / 2));
}

/** Kind of film where neither stock nor person state it, and what the film's edge says of its name. */
function stateFilm(pictures: Session, { film }: MeasuredPicture, state: State): void {
  if (film.from === "inferred") state(["film"], film.film satisfies Film);
  const edge = filmOnEdge(pictures);
  if (!edge) return;
  const names = edge.names.map(({ name }) => name).slice(0, MAX_NAMES);
  const more = edge.names.length > MAX_NAMES ? ` and ${edge.names.length - MAX_NAMES} more` : "";
  state(["note"], `Edge code ${edge.film}${names.length > 0 ? `: ${names.join(" or ")}${more}` : ""}.`);
}

/** Films of one code that are named. */
const MAX_NAMES = 3;

function stateBase(session: Session, view: RollView, { film, start }: MeasuredPicture, state: State): void {
  if (film.film === "slide" || view.base) return;
  const { base } = knownRollOf(session, view);
  const source = baseSource(session, view);
  const inferred = start.inferred?.base;
  const value =
    source && base
      ? { density: rounded(base, 4), read: { scan: source.name, area: source.area } }
      : inferred?.from === "inferred"
        ? { density: rounded(inferred.density, 4) }
        : undefined;
  if (value)
    state(["negative", "base"], value, (now) => {
      const old = now as { density?: unknown; read?: unknown };
      return (old.read === undefined) === !("read" in value) && near(value.density, SMALL_DENSITY)(old.density);
    });
}

function baseSource(session: Session, view: RollView) {
  const leader = session.findLast(({ kind, base }) => kind === "leader" && base);
  const from = leader ?? usedPictures(session, view).find(({ picture }) => picture?.base);
  const base = from?.base ?? from?.picture?.base;
  return from && base && { name: from.name, area: base.area };
}

function stateLook(view: RollView, { film, start }: MeasuredPicture, state: State, stated: Stated): void {
  const { inferred, look, unmix } = start;
  if (!inferred) {
    if (unmix) state(["negative", "unmix"], tidy(look.unmix), near(look.unmix, SMALL_AXIS));
    const path = ["positive", "filtration"];
    const { cyan, magenta, yellow } = look.filtration;
    // The stock's and the roll's together; nothing is stated where nothing is filtered.
    if (film.film === "colour-negative" && (stated(path) !== undefined || cyan !== 0 || magenta !== 0 || yellow !== 0))
      state(path, { cyan, magenta, yellow }, near({ cyan, magenta, yellow }, SMALL_CC));
    return;
  }
  const { negative, tone } = inferred;
  if (negative) {
    // Curve and matrices belong together: all are written anew, or none.
    const values = {
      curve: { ...negative.curve },
      ...(negative.unmix ? { unmix: tidy(negative.unmix) } : {}),
      ...(negative.colour ? { colour: balanced(negative.colour) } : {}),
    };
    const alike = Object.entries(values).every(([key, value]) => near(value, SMALL_AXIS)(stated(["negative", key])));
    if (!alike) for (const [key, value] of Object.entries(values)) state(["negative", key], value);
  }
  if (film.film === "slide") return;
  if (!view.stated.contrast) state(["positive", "contrast"], tone.contrast, near(tone.contrast, SMALL_CONTRAST));
  state(["positive", "toe"], tone.toe, near(tone.toe, SMALL_CONTRAST));
  state(["positive", "shoulder"], tone.shoulder, near(tone.shoulder, SMALL_CONTRAST));
}

const tidy = (matrix: readonly Rgb[]): number[][] => matrix.map((row) => row.map(four));
