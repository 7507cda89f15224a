/** The slanted-edge method against published results, and against edges whose response is known in closed form. */
import { describe, expect, it } from "vitest";
import { crossing, slantedEdge } from "../../extension/engine/survey/sharpness/slanted-edge.ts";
import { numbers, referenceTable } from "./reference.ts";
import { readPnm } from "./pnm.ts";

const luminance = (planes: ReturnType<typeof readPnm>): (typeof planes)[0] => ({
  ...planes[0],
  data: planes[0].data.map((r, i) => 0.213 * r + 0.715 * planes[1].data[i] + 0.072 * planes[2].data[i]),
});

describe("slanted edge, ISO 12233 of 2000 and 2014: sfrmat3 output of its author, P. Burns, 12 May 2015", () => {
  const planes = readPnm("sfr/h_edge.ppm");
  const found = slantedEdge([...planes, luminance(planes)], { window: "hamming" })!;
  const table = referenceTable("sfr/h_edge_sfrmat3_author_output.csv");

  it.each(["SFR_r", "SFR_g", "SFR_b", "SFR_lum"])("%s to four decimals at all frequencies", (column) => {
    const { response } = found[["SFR_r", "SFR_g", "SFR_b", "SFR_lum"].indexOf(column)];
    expect(table.length).toBe(response.length);
    const worst = table.reduce((most, row, k) => Math.max(most, Math.abs(Number(row[column]) - response[k])), 0);
    expect(worst).toBeLessThanOrEqual(0.000_051);
  });

  it("has its frequencies (three decimals there) and its sampling efficiencies 67, 66, 68, 66 %", () => {
    table.forEach((row, k) => expect(found[0].frequency[k]).toBeCloseTo(Number(row.freq_cy_per_px), 2.9));
    // That program counts in rows of its table (1.6 % each); ours interpolates between them.
    [67, 66, 68, 66].forEach((percent, k) => expect(Math.abs(found[k].efficiency - percent)).toBeLessThanOrEqual(2.2));
  });
});

describe("slanted edge, ISO 12233:2023", () => {
  it("meets sfrmat5 (P. Burns, run in Octave) on a real edge: MTF50 within 0.3 %, response within 0.006", () => {
    const rows = referenceTable("sfr/v_edge_sfrmat5_np1.csv").map((row) =>
      numbers(row, "freq", "sfr_r", "sfr_g", "sfr_b"),
    );
    slantedEdge(readPnm("sfr/v_edge.ppm"))!.forEach(({ mtf50, response }, c) => {
      const published = crossing(
        rows.map((r) => r[0]),
        rows.map((r) => r[c + 1]),
        0.5,
      );
      expect(Math.abs(mtf50 / published - 1)).toBeLessThan(0.003);
      const low = rows.filter((r) => r[0] <= 0.5);
      expect(Math.max(...low.map((r, k) => Math.abs(r[c + 1] - response[k])))).toBeLessThan(0.006);
    });
  });

  const edges = referenceTable("sfr/synthetic_edges_expected.csv");
  it("has sixteen edges to check", () => expect(edges.length).toBe(16));

  it.each(edges.map((e) => [e.name, e] as const))("%s: MTF50 within 1 %% of the closed form", (name, edge) => {
    const [{ mtf50, efficiency, angle }] = slantedEdge(readPnm(`sfr/${name}.pgm`))!;
    expect(Math.abs(mtf50 / Number(edge.mtf50_analytic) - 1)).toBeLessThan(0.01);
    // sfrmat5 on the same picture: the same steps, so nearly the same number.
    expect(Math.abs(mtf50 / Number(edge.mtf50_sfrmat5) - 1)).toBeLessThan(0.0005);
    expect(Math.abs(efficiency - Number(edge.sampling_eff_pct))).toBeLessThan(1.5);
    expect(angle).toBeCloseTo(Math.abs(Number(edge.angle_deg)), 1);
  });
});

describe("edges that cannot be measured", () => {
  const even = { width: 60, height: 60, data: new Float64Array(3600).fill(0.4) };
  it("says nothing of an even field, and of an edge along the grid", () => {
    expect(slantedEdge([even])).toBeUndefined();
    expect(slantedEdge([{ ...even, data: even.data.map((_, i) => (i % 60 < 30 ? 0.2 : 0.8)) }])).toBeUndefined();
  });
});
