/** The look of a frame: everything that decides its colours, with defaults filled in. */
import type { CurveTable, Film, FrameLook, Hue, Matrix3, Rgb, Toning } from "../../engine/types.ts";
import { toneWithContrast } from "../../engine/film/paper.ts";
import { localAreaOf } from "../../engine/local/stated.ts";
import { defaultOf } from "../schema/defaults.ts";
import type { FilmCurve, Negative, Positive } from "../generated/types.ts";
import type { RecipeVersion } from "../version.ts";

/** What decides a frame's colours, every default filled in. The arguments keep the schema; toe and shoulder are of `version`. */
export function lookOf(film: Film, negative: Negative, positive: Positive, version: RecipeVersion): FrameLook {
  const stated = <T>(value: T | undefined, ...path: string[]): T => value ?? (defaultOf(film, path, { version }) as T);
  const number = (key: "exposure" | "toe" | "shoulder" | "black" | "saturation"): number =>
    stated<number>(positive[key], "positive", key);
  const filter = (key: "cyan" | "magenta" | "yellow"): number =>
    stated<number>(positive.filtration?.[key], "positive", "filtration", key);
  const local = (positive.local ?? []).flatMap((area) => localAreaOf(area) ?? []);
  const curve = negative.curve && curveTable(negative.curve);
  const gamma = triple(stated<number | Rgb>(negative.gamma, "negative", "gamma"));
  const contrast = stated<number | string>(positive.contrast, "positive", "contrast");
  const toning = toningOf(film, positive.toning);
  const tone = {
    toe: number("toe"),
    shoulder: number("shoulder"),
    black: number("black"),
    points: positive.curve ?? [],
    ...(version === 2 ? { version } : {}),
  };
  return {
    film,
    base: stated<Rgb>(negative.base?.density, "negative", "base", "density"),
    gamma,
    ...(curve ? { curve } : {}),
    unmix: stated<Matrix3>(negative.unmix, "negative", "unmix"),
    colour: stated<Matrix3>(negative.colour, "negative", "colour"),
    exposure: number("exposure"),
    filtration: { cyan: filter("cyan"), magenta: filter("magenta"), yellow: filter("yellow") },
    tone: toneWithContrast({ film, gamma, curve, tone }, contrast),
    ...(local.length > 0 ? { local } : {}),
    saturation: number("saturation"),
    ...(toning && { toning }),
  };
}

/** The print's own colours; undefined where nothing is stated of them. */
function toningOf(film: Film, stated: Positive["toning"]): Toning | undefined {
  if (!stated) return undefined;
  const part = (name: "shadows" | "highlights" | "paper"): Hue => {
    const value = (key: "hue" | "strength"): number =>
      stated[name]?.[key] ?? (defaultOf(film, ["positive", "toning", name, key]) as number);
    return { hue: value("hue"), strength: value("strength") };
  };
  return { shadows: part("shadows"), highlights: part("highlights"), paper: part("paper") };
}

const triple = (value: number | Rgb): Rgb => (typeof value === "number" ? [value, value, value] : value);

/** Black-and-white film has one list of densities, which stands for all three. */
function curveTable({ logH, red, green, blue, density, mid }: FilmCurve): CurveTable | undefined {
  const [r, g, b] = [red ?? density, green ?? density, blue ?? density];
  return r && g && b ? { logH, red: r, green: g, blue: b, ...(mid === undefined ? {} : { mid }) } : undefined;
}
