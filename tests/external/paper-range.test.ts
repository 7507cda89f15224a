import { describe, expect, it } from "vitest";
import { densityOf, transmittanceOf } from "../../extension/engine/colour/density.ts";
import { luminanceOf } from "../../extension/engine/colour/lab.ts";
import { SPACES } from "../../extension/engine/colour/spaces.ts";
import { filmCurve } from "../../extension/engine/film/characteristic-curve.ts";
import { PAPER_GRADES, toneWithContrast } from "../../extension/engine/film/paper.ts";
import { paperRange } from "../../extension/engine/film/sensitometry.ts";
import { compilePlan } from "../../extension/engine/plan/compile.ts";
import { runPlan } from "../../extension/engine/plan/run.ts";
import type { FrameLook } from "../../extension/engine/types.ts";
import { referenceTable } from "./reference.ts";

const look: FrameLook = {
  film: "black-and-white-negative",
  base: [0, 0, 0],
  gamma: [0.62, 0.62, 0.62],
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
  // Printed dark, so that the wedge's densities reach the paper's greatest density as well as its white.
  exposure: -4,
  filtration: { cyan: 0, magenta: 0, yellow: 0 },
  // A paper's greatest density of about 2.3 is L* 4.5.
  tone: { contrast: 1, toe: 0.3, shoulder: 0.4, black: 4.5, points: [] },
  saturation: 1,
};

/** Prints a wedge of negative densities and reads the print's densities, as one would measure a paper. */
function printedWedge(tone: FrameLook["tone"]): { logH: number[]; density: number[] } {
  const plan = compilePlan({ ...look, tone }, "romm");
  const steps = 1200;
  const negative = Array.from({ length: steps }, (_, i) => 4 - i * 0.005);
  const t = Float32Array.from(negative.flatMap((d) => Array<number>(3).fill(transmittanceOf(d))));
  const out = new Uint16Array(steps);
  runPlan(plan, t, out, steps);
  const linear = Array.from(out, (v) => SPACES.romm.decode(v / 65535));
  // A thinner negative lets more light through to the paper: log H rises as its density falls. The ends are the paper
  // without any exposure, and with more than enough: curves near them only after many stops more than a wedge has.
  return {
    logH: [-40, ...negative.map((d) => -d), 40],
    density: [0, ...linear.map(densityOf), densityOf(luminanceOf(tone.black))],
  };
}

// Rule: ISO 6846:1992 clause 6.2, R = 100·(log HS − log HT). Classes: iso6846_polymax.csv (Table 2 of the standard, of
// curves from a maker's data sheet as digitised by JanLohse/spectral_film_lut, MIT).
describe("paper contrast by grade", () => {
  const rows = referenceTable("films/iso6846_polymax.csv").filter(({ paper }) => / Grade /.test(paper!));

  it("has the grades of the table, with their classes", () => {
    const published = rows.map(({ paper, R_class }) => ({
      grade: Number(/Grade (-?\d)$/.exec(paper!)![1]),
      range: Number(R_class!.slice(1)),
    }));
    expect(published).toHaveLength(7);
    expect(PAPER_GRADES).toEqual(published);
  });

  it.each(rows.map(({ paper, R_class, R_raw }) => [paper, R_class, Number(R_raw)] as const))(
    "%s: a printed wedge has the paper's ISO range %s",
    (paper, range, raw) => {
      const grade = /Grade (-?\d)$/.exec(paper!)![1];
      const { logH, density } = printedWedge(toneWithContrast(look, `grade ${grade}`));
      const found = paperRange(filmCurve(logH, density));
      // The standard's tolerance of a reading: 0.01 log H or 3 %, whichever is more; classes are 10 or 20 apart.
      expect(Math.abs(found - Number(range!.slice(1)))).toBeLessThanOrEqual(Math.max(1, 0.03 * found));
      expect(Math.abs(found - raw)).toBeLessThanOrEqual(10);
    },
  );
});
