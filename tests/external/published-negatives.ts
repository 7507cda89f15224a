/** The published colour negatives, cameras and copy lights of tests/reference, as the neutral prior is made from them. */
import type { ScanningSet, Spectrum } from "../../extension/engine/calibrate/spectra.ts";
import type { DyeSet, NegativeSheet } from "../../extension/engine/calibrate/neutral-prior.ts";
import type { TableInputs } from "../../extension/engine/calibrate/neutral-table.ts";
import { resampled } from "../../extension/engine/calibrate/spectra.ts";
import { copyLight, PANELS } from "./copy-lights.ts";
import { type Row, referenceTable } from "./reference.ts";

export const GRID = Array.from({ length: 61 }, (_, i) => 400 + 5 * i);

const tables = ["films/film_curves.csv", "films/film_dyes.csv", "films/film_negatives.csv"].flatMap((file) =>
  referenceTable(file),
);

/** A film of the tables. Films of one family (speeds, versions, push curves) are left out together. */
export interface PublishedNegative {
  readonly name: string;
  readonly family: string;
  readonly maker: "Kodak" | "Agfa";
  readonly medium: "still" | "cine" | "aerial";
  /** Light that the film is balanced for, by name (`light`). */
  readonly light: "D55" | "A";
  /** The sheet's exposure axis counts in powers of this. */
  readonly axis: 2 | 10;
}

const film = (
  name: string,
  family: string,
  medium: PublishedNegative["medium"],
  light: PublishedNegative["light"] = "D55",
  axis: PublishedNegative["axis"] = 10,
): PublishedNegative => ({ name, family, maker: name.startsWith("Agfa") ? "Agfa" : "Kodak", medium, light, axis });

/**
 * Colour negatives whose characteristic curves begin at their base and whose unexposed spectrum is published. Verita 200D
 * is left out: what its table gives as the unexposed spectrum is 2 D denser than its curves.
 */
export const NEGATIVES: readonly PublishedNegative[] = [
  film("Agfa Vista 100", "Vista", "still"),
  film("Kodak Ektar 100", "Ektar", "still"),
  film("Kodak Gold 200", "Gold", "still"),
  film("Kodak Ultramax 400", "Ultramax", "still"),
  film("Kodak Portra 160", "Portra", "still"),
  film("Kodak Portra 400", "Portra", "still"),
  film("Kodak Portra 800", "Portra", "still"),
  film("Kodak Portra 800 @1600", "Portra", "still"),
  film("Kodak Portra 800 @3200", "Portra", "still"),
  film("Kodak Vericolor III", "Vericolor", "still"),
  film("Kodak Aerocolor IV 2460", "Aerocolor", "aerial"),
  film("Kodak Aerocolor IV 2460 Low", "Aerocolor", "aerial"),
  film("Kodak Aerocolor IV 2460 High", "Aerocolor", "aerial"),
  film("Kodak Vision3 50D 5203", "Vision3", "cine"),
  // This sheet's axis counts stops (camera stops, base 2), not decades.
  film("Kodak Vision3 250D 5207", "Vision3", "cine", "D55", 2),
  film("Kodak Vision3 200T 5213", "Vision3", "cine", "A"),
  film("Kodak Vision3 500T 5219", "Vision3", "cine", "A"),
  film("Kodak Vision 320T 5277", "Vision", "cine", "A"),
  film("Kodak EXR 100T 5248", "EXR", "cine", "A"),
  film("Kodak 5247 II Alt", "5247", "cine", "A"),
  film("Kodak 5247", "5247", "cine"),
];

const column = (rows: readonly Row[], name: string): number[] => rows.map((row) => Number(row[name]));

/** Points of a film's table, ascending in x, a point per x. */
export function published(name: string, quantity: string, channel = ""): { x: number[]; y: number[] } {
  const points = tables
    .filter((r) => r.film === name && r.quantity === quantity && (r.channel ?? "") === channel)
    .map((r) => [Number(r.x), Number(r.y)] as const);
  const sorted = [...new Map(points)].sort((a, b) => a[0] - b[0]);
  return { x: sorted.map((p) => p[0]), y: sorted.map((p) => p[1]) };
}

/** A film's published numbers. */
export function negativeSheet({ name, family, axis }: PublishedNegative): NegativeSheet {
  const base = published(name, "d_min_sd");
  const curve = (channel: string): { logH: number[]; density: number[] } => {
    const { x, y } = published(name, "sensiometric_curve", channel);
    return { logH: x.map((v) => v * Math.log10(axis)), density: y };
  };
  return { name, family, base: resampled(base.x, base.y, GRID), curves: [curve("0"), curve("1"), curve("2")] };
}

const dyed = [...new Set(tables.filter((r) => r.quantity === "spectral_density").map((r) => r.film))];

/** Every published set of cyan, magenta and yellow dye; only colour negatives have one in these tables. */
export const DYE_SETS: readonly DyeSet[] = dyed.map((name) => ({
  name,
  dyes: ["0", "1", "2"].map((channel) => {
    const { x, y } = published(name, "spectral_density", channel);
    // Beyond the sheet's ends a dye falls off: a level continuation would make a grey veil of it.
    const from = resampled(x, y, GRID);
    return from.map((v, i) => Math.max(0, GRID[i] < x[0] || GRID[i] > x[x.length - 1] ? v * 0.9 : v));
  }) as unknown as DyeSet["dyes"],
}));

const cameraTables = [
  "cameras/camera_sensitivities_400_700_5nm.csv",
  "cameras/camera_sensitivities_more_400_700_5nm.csv",
].map((file) => referenceTable(file));

/** All cameras of the tables by EXIF model id. */
export const CAMERA_MODELS: readonly { name: string; sensitivity: ScanningSet["sensitivity"] }[] = cameraTables.flatMap(
  (rows) =>
    Object.keys(rows[0])
      .filter((k) => k.endsWith(":R"))
      .map((k) => k.slice(0, -2))
      .map((name) => ({
        name,
        sensitivity: [column(rows, `${name}:R`), column(rows, `${name}:G`), column(rows, `${name}:B`)] as const,
      })),
);

const observer = referenceTable("colour/cie1931_2deg_cmf_1nm.csv");
const ofObserver = (name: string): Spectrum => resampled(column(observer, "nm"), column(observer, name), GRID);
const reflectances = referenceTable("charts/training_reflectances_190_400_700_10nm.csv");
const daylight = referenceTable("lights/illuminants_daylight_5nm.csv");

/** Sensitivity of a film's layers × the light that it is balanced for, on GRID; 0 beyond the sheet's ends. */
export function layerResponses({ name, light }: PublishedNegative): [Spectrum, Spectrum, Spectrum] {
  const power = light === "A" ? copyLight("A") : resampled(column(daylight, "nm"), column(daylight, "D55"), GRID);
  const layer = (channel: string): Spectrum => {
    const { x, y } = published(name, "log_sensitivity", channel);
    return GRID.map((nm, i) => (nm < x[0] || nm > x[x.length - 1] ? 0 : 10 ** resampled(x, y, [nm])[0] * power[i]));
  };
  return [layer("0"), layer("1"), layer("2")];
}

/** What the engine's neutral table is made from; films that `leave` names are left out. */
export function tableInputs(leave: (film: PublishedNegative) => boolean = () => false): TableInputs {
  const films = NEGATIVES.filter((f) => !leave(f));
  return {
    grid: GRID,
    films: films.map(negativeSheet),
    dyes: DYE_SETS,
    cameras: CAMERA_MODELS as TableInputs["cameras"],
    lights: PANELS.map((name) => ({ name, power: copyLight(name) })),
    observer: [ofObserver("x"), ofObserver("y"), ofObserver("z")],
    surfaces: Object.keys(reflectances[0])
      .filter((k) => k !== "nm")
      .map((k) => resampled(column(reflectances, "nm"), column(reflectances, k), GRID)),
    responses: films.map(layerResponses),
  };
}
