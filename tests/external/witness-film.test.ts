/** Are the witness's inventions like real film and real cameras? Published figures say what real is. */
import { describe, expect, it } from "vitest";
import { CAMERA_A, CAMERA_B, EVEN, type Light } from "../witness/camera/cameras.ts";
import { cameraDensity, channelWeights } from "../witness/camera/negative.ts";
import { integralDensity } from "../witness/spectra/spectrum.ts";
import { baseDensity, emulsionOf, publishedDensity } from "../witness/film/emulsion.ts";
import { atH } from "../witness/film/curve.ts";
import { COALFISH_125, NORTHLIGHT_400, SKERRY_100 } from "../witness/film/stocks.ts";
import { D50, STATUS_M } from "../witness/spectra/tables.ts";
import { numbers, referenceTable, type Row } from "./reference.ts";

const daylight: Light = { name: "D50", power: D50 };
const NEGATIVES = [NORTHLIGHT_400, SKERRY_100];
const CHANNELS = ["R", "G", "B"];

/** Least and greatest of a column, widened by `by`. */
function range(rows: readonly Row[], column: string, by: number): [number, number] {
  const values = rows.flatMap((row) => numbers(row, column)).filter((v) => Number.isFinite(v) && v > 0);
  return [Math.min(...values) - by, Math.max(...values) + by];
}

/** What is wrong with a value that should lie in a range: nothing, or a sentence. */
function strange(value: number, [low, high]: readonly [number, number], what: string): string[] {
  return value > low && value < high
    ? []
    : [`${what}: ${value.toFixed(3)} is not between ${low.toFixed(3)} and ${high.toFixed(3)}`];
}

// Source: Status M characteristic curves of colour negative data sheets (E-4050, E-4046, E-7022, E-4051, E-4040,
// E-7023 and others), digitised by the MIT-licensed spectral_film_lut; table in tests/reference/films/iso5800_dmin_gamma.csv.
describe("colour negatives against the data sheets of real ones (ISO 5-3 Status M)", () => {
  const real = referenceTable("films/iso5800_dmin_gamma.csv").filter((row) =>
    /Portra|Ektar|Gold|Ultramax/.test(row.film),
  );

  it("have base densities like theirs", () => {
    const wrong: string[] = [];
    expect(real.length).toBeGreaterThan(4);
    for (const stock of NEGATIVES)
      for (const [k, d] of baseDensity(stock).entries())
        wrong.push(...strange(d, range(real, `dmin_${CHANNELS[k]}`, 0.08), `${stock.name} ${CHANNELS[k]}`));
    expect(wrong).toEqual([]);
  });

  it("have gradients like theirs: Dmin + 0.30 over the next 1.2 log H", () => {
    const wrong: string[] = [];
    for (const stock of NEGATIVES)
      for (let k = 0; k < 3; k++) {
        let start = -2;
        while (publishedDensity(stock, k, start) < 0.3) start += 0.001;
        const gradient = (publishedDensity(stock, k, start + 1.2) - 0.3) / 1.2;
        wrong.push(...strange(gradient, range(real, `g_${CHANNELS[k]}`, 0.02), `${stock.name} ${CHANNELS[k]}`));
      }
    expect(wrong).toEqual([]);
  });

  it("have densities at the end of the shoulder like theirs", () => {
    const wrong: string[] = [];
    for (const stock of NEGATIVES)
      for (const [k, base] of baseDensity(stock).entries())
        wrong.push(
          ...strange(
            base + publishedDensity(stock, k, 3),
            range(real, `dmax_tab_${CHANNELS[k]}`, 0.3),
            `${stock.name} ${k}`,
          ),
        );
    expect(wrong).toEqual([]);
  });

  // Source: Kodak publication E-40, judging negative exposure: a grey card reads 0.75–0.95 in red Status M.
  it("record a grey card as a well exposed negative should", () => {
    const wrong: string[] = [];
    for (const stock of NEGATIVES)
      wrong.push(...strange(baseDensity(stock)[0] + publishedDensity(stock, 0, 0), [0.75, 0.98], stock.name));
    expect(wrong).toEqual([]);
  });
});

// Source: dye spectra of eleven cine negatives (spectral_film_lut, MIT) through Status M: tests/reference/films/dye_crosstalk.csv.
describe("dyes against those of real negatives", () => {
  const real = referenceTable("films/dye_crosstalk.csv").filter((row) => row.instrument === "statusM");

  it("have unwanted absorptions of the same order in Status M", () => {
    const wrong: string[] = [];
    for (const stock of NEGATIVES)
      for (let r = 0; r < 3; r++) {
        const seen = stock.layers.map((layer) => integralDensity(STATUS_M[r], layer.dye));
        for (let c = 0; c < 3; c++) {
          if (c === r) continue;
          const column = `${CHANNELS[r]}_${"CMY"[c]}`;
          const values = real.map((row) => Number(row[column]));
          wrong.push(
            ...strange(
              seen[c] / seen[r],
              [Math.min(...values) - 0.03, Math.max(...values) + 0.03],
              `${stock.name} ${column}`,
            ),
          );
        }
      }
    expect(wrong).toEqual([]);
  });
});

// Source: 52 camera sensitivities (rawtoaces-data, Apache-2.0) looking at the published base and mid-scale spectra of
// a 400 negative under D50: tests/reference/films/sim_golden_camera_densities.csv.
describe("cameras against 53 real ones looking at a 400 negative", () => {
  const rows = referenceTable("films/sim_golden_camera_densities.csv").filter(
    (row) => row.film === "Kodak Portra 400" && row.light === "D50",
  );
  const base = rows.filter((row) => row.spectrum === "d_min_sd");
  const middle = rows.filter((row) => row.spectrum !== "d_min_sd");

  it("see a base between what real cameras see", () => {
    const wrong: string[] = [];
    expect(base.length).toBeGreaterThan(40);
    for (const camera of [CAMERA_A, CAMERA_B])
      for (const [k, d] of cameraDensity(camera, daylight, NORTHLIGHT_400, [0, 0, 0]).entries())
        wrong.push(...strange(d, range(base, `D_${CHANNELS[k]}`, 0.03), `${camera.model} ${CHANNELS[k]}`));
    expect(wrong).toEqual([]);
  });

  it("see the same part of the Status M contrast as real cameras do", () => {
    const wrong: string[] = [];
    expect(middle.length).toBe(base.length);
    const amounts = emulsionOf(NORTHLIGHT_400).amounts.map((table) => atH(table, 0));
    for (const camera of [CAMERA_A, CAMERA_B]) {
      const clear = cameraDensity(camera, daylight, NORTHLIGHT_400, [0, 0, 0]);
      const grey = cameraDensity(camera, daylight, NORTHLIGHT_400, amounts);
      for (let k = 0; k < 3; k++) {
        const real = middle.map((row) => {
          const own = base.find((b) => b.camera === row.camera)!;
          const [d, m] = numbers(row, `D_${CHANNELS[k]}`, `StatusM_${CHANNELS[k]}`);
          const [d0, m0] = numbers(own, `D_${CHANNELS[k]}`, `StatusM_${CHANNELS[k]}`);
          return (d - d0) / (m - m0);
        });
        const part = (grey[k] - clear[k]) / publishedDensity(NORTHLIGHT_400, k, 0);
        wrong.push(
          ...strange(part, [Math.min(...real) - 0.03, Math.max(...real) + 0.03], `${camera.model} ${CHANNELS[k]}`),
        );
      }
    }
    expect(wrong).toEqual([]);
  });

  it("have overlapping channels: every channel sees the neighbour's dye, as white-light cameras do", () => {
    const wrong: string[] = [];
    // Of the published crosstalk with a full-frame camera under D50, the range over stocks.
    const real = referenceTable("films/dye_crosstalk.csv").filter((row) => row.instrument.includes("D50"));
    for (const camera of [CAMERA_A, CAMERA_B]) {
      const weights = channelWeights(camera, daylight);
      for (const [row, column] of [
        [0, 1],
        [1, 0],
        [1, 2],
        [2, 1],
      ]) {
        const name = `${CHANNELS[row]}_${"CMY"[column]}`;
        const values = real.map((r) => Number(r[name]));
        const seen = NORTHLIGHT_400.layers.map((layer) => integralDensity(weights[row], layer.dye));
        wrong.push(
          ...strange(
            seen[column] / seen[row],
            [Math.min(...values) - 0.05, Math.max(...values) + 0.05],
            `${camera.model} ${name}`,
          ),
        );
      }
    }
    expect(wrong).toEqual([]);
  });
});

// Source: black-and-white contrast index about 0.56–0.62 for diffuse enlarging (trade literature; common practice).
describe("black-and-white stock", () => {
  it("is developed to an ordinary contrast and is neutral to any camera", () => {
    const wrong: string[] = [];
    const rise = publishedDensity(COALFISH_125, 0, 0.5) - publishedDensity(COALFISH_125, 0, -0.8);
    wrong.push(...strange(rise / 1.3, [0.55, 0.65], "gradient"));
    const seen = cameraDensity(CAMERA_A, EVEN, COALFISH_125, [1]);
    expect(Math.max(...seen) - Math.min(...seen)).toBeLessThan(0.03);
    expect(wrong).toEqual([]);
  });
});
