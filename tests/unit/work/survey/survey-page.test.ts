/** The report's words: all of them can be said in another language, and what comes from files is text in every one. */
import { describe, expect, it } from "vitest";
import { FINDING_KINDS } from "../../../../extension/engine/survey/catalogue.ts";
import type { Finding, ScanReading } from "../../../../extension/engine/survey/types.ts";
import { english, msg, type Translate } from "../../../../extension/engine/messages.ts";
import { surveyBody, surveyPage } from "../../../../extension/work/survey/survey-page.ts";
import type { SurveyReport } from "../../../../extension/work/survey/survey-roll.ts";
import { marksOf } from "../../../browser/letters.ts";

const reading = (frame: string, more: Partial<ScanReading>): ScanReading =>
  ({
    name: `H00${frame}.dng`,
    frame,
    info: { width: 960, height: 640 },
    area: { left: 0.05, top: 0.05, width: 0.9, height: 0.9, tilt: 0 },
    brightest: [0.6, 0.5, 0.4],
    clipped: [0, 0, 0],
    cells: [],
    rebate: [],
    edges: {},
    specks: [],
    ...more,
  }) as ScanReading;

/** A finding of every kind, with what its kind says of it. */
const findings = FINDING_KINDS.map(({ code, severity, limit, unit, source, cause, remedy }): Finding => ({
  code,
  severity,
  message: "The holder's dark edge holds 2 % of the bare light.",
  translatable: msg("The holder's dark edge shows {0} of the bare light.", "2 %"),
  measured: 2,
  limit,
  unit,
  source,
  cause,
  remedy,
  place: { scan: "H0001.dng", frame: "01", area: [0.1, 0.1, 0.2, 0.2] },
}));

const report = {
  roll: {
    film: "colour-negative",
    flare: [0, 0, 0],
    scans: [
      reading("01", { mask: [0.02, 0.02, 0.02] }),
      reading("02", { maskTooNarrow: true }),
      reading("03", {}),
      reading("05", { flareFromSpecks: 0.012 }),
    ],
    blank: { name: "LIGHT.dng", unevenness: 8, colourSpan: 1, banding: 0.1, sensorDust: [] },
  },
  findings,
  dust: {},
  sensorDust: [],
  views: { "H0001.dng": { width: 3, height: 2, bytes: Uint8Array.of(1, 2, 3) } },
  failures: [{ frame: "04", message: "" }],
  paths: {},
  mirrored: [],
} as unknown as SurveyReport;

/** What is shown and read out of a page. */
const shown = (html: string): string =>
  [...html.replace(/<style>[\s\S]*?<\/style>/g, "").matchAll(/>([^<]*)<|aria-label="([^"]*)"/g)]
    .map(([, text, label]) => text ?? label)
    .join("\n");

describe("the survey's report", () => {
  const mark = marksOf();
  const marked: Translate = (message, ...args) => english(mark(message), ...args);
  // Longer codes first: sensor-dust holds dust.
  const kinds = FINDING_KINDS.toSorted((a, b) => b.code.length - a.code.length);
  const left = (html: string): string[] =>
    shown(html)
      .split("\n")
      .map((line) =>
        kinds
          .reduce((rest, { code, source }) => rest.replace(source, "").replace(code, ""), line)
          .replace(/(?:H0|LIGHT)\d*\.dng/g, "")
          .trim(),
      )
      .filter((line) => /\p{Script=Latin}{2}/u.test(line));

  it("follows the editor's language, but for codes, file names and citations", () => {
    expect(left(surveyBody(report)).length).toBeGreaterThan(60);
    expect(left(surveyBody(report, { t: marked }))).toEqual([]);
    const page = surveyPage("", report, marked, "eo");
    expect(left(page)).toEqual([]);
    expect(page).toContain('<html lang="eo">');
  });

  it("says of a holder what could be read of it, and else what the specks tell", () => {
    const text = shown(surveyBody(report));
    for (const words of ["2.00 %", "too few pixels of it to tell", "no holder in view", "1.20 %, measured on specks"])
      expect(text).toContain(words);
  });

  it("takes what a translation says for text, never for markup", () => {
    const hostile: Translate = (message, ...args) => `<b onclick="x">${english(message, ...args)}`;
    const html = surveyPage("<i>", report, hostile, '"><script>');
    expect(html).not.toMatch(/<b |<i>|<script/);
    expect(html).toContain("&#60;b onclick=&#34;x&#34;&#62;");
  });
});
