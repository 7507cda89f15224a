/**
 * The second witness: published colour negatives with published dyes, seen by published cameras under published lights.
 * Reads tests/reference by itself and never the engine. The still films' own dyes are not published; any set can be laid
 * under their curves, as each maker's sheet fixes what a densitometer reads of neutrals and not which dyes make it.
 */
import { interpolated, type Row, referenceTable } from "../../external/reference.ts";
import { CAMERA_A, type Camera, type Light } from "../camera/cameras.ts";
import type { TabledCharacteristic } from "./curve.ts";
import { spectrum, type Spectrum } from "../spectra/spectrum.ts";
import type { Stock } from "./stocks.ts";
import { D55 } from "../spectra/tables.ts";

const tables = ["films/film_curves.csv", "films/film_dyes.csv", "films/film_negatives.csv"].flatMap((file) =>
  referenceTable(file),
);

function points(film: string, quantity: string, channel = ""): { x: number[]; y: number[] } {
  const rows = tables.filter((r) => r.film === film && r.quantity === quantity && (r.channel ?? "") === channel);
  if (rows.length === 0) throw new Error(`tests/reference has no ${quantity} of ${film}, channel "${channel}".`);
  const sorted = [...new Map(rows.map((r) => [Number(r.x), Number(r.y)]))].sort((a, b) => a[0] - b[0]);
  return { x: sorted.map((p) => p[0]), y: sorted.map((p) => p[1]) };
}

/** A table on the witness's grid; 0 beyond its ends where `end` says so. */
function gridded({ x, y }: { x: number[]; y: number[] }, end: "level" | "nothing", map = (v: number) => v): Spectrum {
  return spectrum((nm) =>
    end === "nothing" && (nm < x[0] - 5 || nm > x[x.length - 1] + 5) ? 0 : map(interpolated(x, y, nm)),
  );
}

export interface PublishedStockOptions {
  /** Film whose dyes are laid under the curves; its own by default. */
  readonly dyes?: string;
  /** Powers that the sheet's exposure axis counts in. */
  readonly axis?: 2 | 10;
  /** Tungsten film: exposed by light that it is balanced for. */
  readonly tungsten?: boolean;
  /** Status M density of a metered 18 % grey above base, green. */
  readonly midGrey?: number;
  /** How strongly neighbouring layers hold one another back. */
  readonly interlayer?: number;
}

const made = new Map<string, Stock>();

/** A published colour negative as a stock of the witness; the same object for the same arguments. */
export function publishedStock(film: string, options: PublishedStockOptions = {}): Stock {
  const { dyes = film, axis = 10, tungsten = false, midGrey = 0.72, interlayer: k = 0 } = options;
  const key = JSON.stringify([film, dyes, midGrey, k]);
  const known = made.get(key);
  if (known) return known;
  const curves = [0, 1, 2].map((c) => {
    const { x, y } = points(film, "sensiometric_curve", String(c));
    const min = Math.min(...y);
    // Small falls of a digitised toe are levelled from the top down.
    const rising = y.map((_, i) => Math.min(...y.slice(i)) - min);
    return { h: x.map((v) => v * Math.log10(axis)), density: rising };
  });
  const [green] = [curves[1]];
  const mid = interpolated(green.density, green.h, midGrey);
  const power = tungsten ? column("lights/illuminants_scan_lights_5nm.csv", "A") : undefined;
  const layers = curves.map(({ h, density }, c): Stock["layers"][number] => {
    const above = h.map((v) => v - mid);
    const gamma = (interpolated(above, density, 0.5) - interpolated(above, density, -0.5)) / 1;
    const curve: TabledCharacteristic = { gamma, h: above, density };
    const sensitivity = gridded(points(film, "log_sensitivity", String(c)), "nothing", (v) => 10 ** v);
    return {
      sensitivity: power ? sensitivity.map((s, i) => (s * power[i]) / D55[i]) : sensitivity,
      dye: gridded(points(dyes, "spectral_density", String(c)), "level", (v) => Math.max(0, v)),
      curve,
      granularity: [0.2, 0.2, 0.32][c],
    };
  });
  const stock: Stock = {
    name: `${film} with dyes of ${dyes}`,
    film: "colour-negative",
    status: "M",
    layers,
    base: gridded(points(film, "d_min_sd"), "level"),
    interlayer: [
      [0, k, 0.4 * k],
      [k, 0, 0.7 * k],
      [0.4 * k, 0.8 * k, 0],
    ],
    scatter: 3.5,
    cloud: 4.5,
  };
  made.set(key, stock);
  return stock;
}

/** Films with a published set of dyes. */
export const DYE_NAMES: readonly string[] = [
  ...new Set(tables.filter((r) => r.quantity === "spectral_density").map((r) => r.film)),
];

function column(file: string, name: string): Spectrum {
  const rows: readonly Row[] = referenceTable(file);
  const x = rows.map((r) => Number(r.nm));
  const y = rows.map((r) => Number(r[name]));
  if (!y.every(Number.isFinite)) throw new Error(`tests/reference/${file} has no column ${name}.`);
  return spectrum((nm) => interpolated(x, y, nm));
}

const cameraFiles = [
  "cameras/camera_sensitivities_400_700_5nm.csv",
  "cameras/camera_sensitivities_more_400_700_5nm.csv",
];

/** A published camera by EXIF model id, with the sensor of the witness's own camera. */
export function publishedCamera(model: string): Camera {
  const file = cameraFiles.find((f) => `${model}:R` in referenceTable(f)[0]);
  if (!file) throw new Error(`tests/reference has no camera ${model}.`);
  return {
    ...CAMERA_A,
    make: "",
    model: model.replaceAll("_", " "),
    sensitivity: [column(file, `${model}:R`), column(file, `${model}:G`), column(file, `${model}:B`)],
  };
}

const lightFiles = ["lights/illuminants_copy_lights_5nm.csv", "lights/illuminants_scan_lights_5nm.csv"];

/** A published light by name. */
export function publishedLight(name: string): Light {
  const file = lightFiles.find((f) => name in referenceTable(f)[0]);
  if (!file) throw new Error(`tests/reference has no light ${name}.`);
  return { name, power: column(file, name) };
}
