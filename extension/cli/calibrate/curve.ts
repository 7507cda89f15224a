/** `rollbook calibrate curve`: reports a characteristic curve from a table, and writes it into a recipe. */
import type { FilmCurve } from "../../engine/film/characteristic-curve.ts";
import { blackAndWhiteSpeed, colourNegativeSpeed, contrastIndex } from "../../engine/film/sensitometry.ts";
import { readCurveTable } from "../../recipe/curve-table.ts";
import { curveValues, rounded } from "../../work/calibrate/calibration-values.ts";
import { readPlainFile } from "../../work/files/read-plain-file.ts";
import { type Call, EXIT } from "../verb.ts";
import { writeValues } from "./write.ts";

/** A characteristic curve as a table: what it says of the film, and into a recipe with --write. */
export async function calibrateCurve(call: Call, file: string): Promise<number> {
  const { curves, edits } = curveValues(readCurveTable(readPlainFile(file).toString("utf8"), file));
  const about = curves.map(([name, curve]) => describe(name, curve));
  const speed = speedOf(curves.map(([, c]) => c));
  const { terminal } = call;
  for (const { channel, base, gamma, contrastIndex: ci, maxDensity } of about)
    terminal.print(
      `${channel.padEnd(8)} base ${base.toFixed(2)}  gamma ${gamma.toFixed(2)}  contrast index ` +
        `${ci === undefined ? "—" : ci.toFixed(2)}  to ${maxDensity.toFixed(2)}`,
    );
  terminal.print(speed.words);
  const written = await writeValues(call, edits);
  terminal.result({ ok: true, file, channels: about, speed: speed.value, standard: speed.standard, written });
  return EXIT.good;
}

function describe(channel: string, curve: FilmCurve) {
  const ci = contrastIndex(curve);
  return {
    channel,
    base: rounded(curve.dmin, 3),
    maxDensity: rounded(curve.dmax, 3),
    gamma: rounded(curve.gamma, 3),
    ...(ci === undefined ? {} : { contrastIndex: rounded(ci, 3) }),
  };
}

function speedOf(curves: readonly FilmCurve[]): { value: number; standard: string; words: string } {
  if (curves.length === 3) {
    const value = colourNegativeSpeed(curves[0], curves[1], curves[2]);
    const words = `ISO ${value.toFixed(0)} by ISO 5800, where logH is in lux seconds`;
    return { value: rounded(value, 1), standard: "ISO 5800:1987", words };
  }
  const { speed, densityRange } = blackAndWhiteSpeed(curves[0]);
  // The standard's development makes the density rise by 0.80 over 1.30 log H.
  const fits = Math.abs(densityRange - 0.8) <= 0.05;
  const words =
    `ISO ${speed.toFixed(0)} by ISO 6, where logH is in lux seconds; the density rises by ${densityRange.toFixed(2)} over 1.30, ` +
    (fits ? "as the standard asks" : "where the standard asks for 0.80 ± 0.05: an exposure index, not an ISO speed");
  return { value: rounded(speed, 1), standard: "ISO 6:1993", words };
}
