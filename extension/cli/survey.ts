/** `rollbook survey`: measures a roll's scans and prints the findings. */
import { scaleOf } from "../engine/survey/scale.ts";
import { responseOf } from "../engine/survey/sharpness/sharpness-map.ts";
import type { Finding } from "../engine/survey/types.ts";
import { spotEdits } from "../recipe/survey/spots.ts";
import { HTML_ENDINGS, openOutput, sealed } from "../work/files/output-file.ts";
import { sourcesOf } from "../work/files/sources.ts";
import { selectFrames } from "../work/frame/select-frames.ts";
import { surveyPage } from "../work/survey/survey-page.ts";
import { type SurveyReport, surveyRoll } from "../work/survey/survey-roll.ts";
import { changeRecipe } from "./change.ts";
import { DRY_RUN_OPTION, writeOutput } from "./dry-run.ts";
import { loadValid, ROOT_OPTION, type ValidRecipe } from "./load.ts";
import { withPool } from "./programs.ts";
import { SARIF_OPTION, type SarifResult, writeSarif } from "./sarif.ts";
import { type Call, EXIT, flag, text, UsageError, type Verb, whole } from "./verb.ts";

export const survey: Verb = {
  name: "survey",
  summary: "survey a roll's scans for defects",
  usage: "ROLL [--frames 1-12,14A] [--html FILE] [--write-spots] [--overwrite]",
  details:
    "Measures the scans of a roll: exposure, light, flare, sharpness, tilt, shake, dust, sensor dust, drift, resolution and\n" +
    "set-up. Each finding has its number, the limit and where that comes from, the place, the likely cause and the remedy;\n" +
    "docs/findings.md lists them all. With --write-spots the dust of each frame goes into its spots, and sensor dust that lies\n" +
    "at the same place in every scan into light.spots; look at them in the preview. Exit code 1 when there are warnings.",
  example: "rollbook survey harbour.roll.yaml --html survey.html",
  options: {
    frames: { value: "LIST", help: "frames such as 1-12,14A (default: all)" },
    html: { value: "FILE", help: "write a report with pictures, as one file" },
    sensor: { value: "MM", help: "width of the camera's sensor in millimetres, for tilt and diffraction" },
    "write-spots": { help: "write dust and sensor dust into the recipe, to be healed" },
    overwrite: { help: "let --html replace a file that rollbook did not write" },
    workers: { value: "N", help: "worker threads (default: one per processor core, at most 8)" },
    ...SARIF_OPTION,
    ...DRY_RUN_OPTION,
    ...ROOT_OPTION,
  },
  files: [1, 1],
  async run(call) {
    const { terminal, signal } = call;
    const workers = whole(call, "workers", 1, 64);
    const sensor = millimetres(call);
    const recipe = await loadValid(call);
    if (!recipe) return EXIT.problems;
    const { resolved, workspace } = recipe;
    const html = text(call, "html");
    const sources = sourcesOf(resolved, workspace);
    const page =
      html === undefined
        ? undefined
        : openOutput({ file: html, endings: HTML_ENDINGS, overwrite: flag(call, "overwrite"), sources });
    const wanted = text(call, "frames");
    const ids = resolved.frames.filter((f) => !f.skip).map((f) => f.id);
    const frames = wanted === undefined ? undefined : selectFrames(ids, wanted);
    const report = await withPool(workers, (pool) =>
      surveyRoll(
        resolved,
        workspace,
        pool,
        { frames, sensor },
        { signal, onProgress: (done, total, frame) => terminal.progress(done, total, `frame ${frame}`) },
      ),
    );
    for (const { frame, message } of report.failures)
      terminal.printError(`${frame === undefined ? "" : `frame ${frame}: `}${message}`);
    for (const finding of report.findings) terminal.report(lineOf(finding));
    if (report.findings.length === 0 && report.failures.length === 0) terminal.print("No findings.");
    const proposesSpots = report.findings.some(({ code }) => code === "dust" || code === "sensor-dust");
    if (proposesSpots && !flag(call, "write-spots"))
      terminal.print("To heal this dust, run it with --write-spots, and look at the spots in the preview.");
    await writeSarif(
      call,
      report.findings.map((finding) => atFrame(finding, recipe)),
    );
    if (page) {
      const pageText = sealed(surveyPage(resolved.title ?? recipe.shown, report));
      if (await writeOutput(call, page, html!, pageText)) terminal.print(`Report written to ${html}.`);
    }
    const spots = flag(call, "write-spots") ? await writeSpots(call, recipe, report) : undefined;
    if (spots)
      terminal.print(`${spots.dust} spots of dust and ${spots.sensorDust} of sensor dust written to ${recipe.shown}.`);
    const bad = report.failures.length > 0 || report.findings.some((f) => f.severity !== "info");
    const { dust, sensorDust, failures } = report;
    // For programs the English sentence is enough.
    const findings = report.findings.map((finding) => {
      const { translatable: _, ...rest } = finding;
      return rest;
    });
    const scans = measurementsOf(report);
    terminal.result({ ok: !bad, recipe: recipe.shown, findings, failures, scans, dust, sensorDust, written: spots });
    return bad ? EXIT.problems : EXIT.good;
  },
};

const MM_PER_INCH = 25.4;

/** Scale and sharpness of each scan, each with its standard deviation; left out where nothing tells them. */
function measurementsOf({ roll }: SurveyReport) {
  return roll.scans.map((scan) => {
    const scale = scaleOf(roll, scan);
    const response = responseOf(scan);
    const ppi = scale && MM_PER_INCH * scale.perMm;
    return {
      scan: scan.name,
      frame: scan.frame,
      ppi: ppi && { value: ppi, deviation: ppi * scale.deviation, from: scale.from },
      mtf50Percent: response && { value: response.half, deviation: response.error },
    };
  });
}

function millimetres(call: Call): number | undefined {
  const value = text(call, "sensor");
  if (value === undefined) return undefined;
  const number = Number(value);
  if (!(number >= 3 && number <= 200))
    throw new UsageError(`--sensor takes millimetres from 3 to 200, not "${value}".`);
  return number;
}

function lineOf({ code, severity, message, place, remedy }: Finding): string {
  const where = place.frame === undefined ? (place.scan ?? "roll") : `frame ${place.frame}`;
  return `${severity.padEnd(7)} ${where}: ${message} [${code}] ${remedy}`;
}

/** A finding at the line of its frame, or of the whole recipe. */
function atFrame({ code, severity, message, remedy, place }: Finding, { document, shown }: ValidRecipe): SarifResult {
  const range = place.frame === undefined ? undefined : document.rangeOf(["frames", place.frame], "key");
  const [start, end] = range?.map((offset) => document.positionOf(offset)) ?? [];
  const at = start && end && { line: start.line, column: start.column, endLine: end.line, endColumn: end.column };
  return { file: shown, ...at, severity, code, message: `${message} ${remedy}` };
}

async function writeSpots(
  call: Call,
  recipe: ValidRecipe,
  report: SurveyReport,
): Promise<{ dust: number; sensorDust: number } | undefined> {
  const { resolved, workspace, document } = recipe;
  const { edits, dust, sensorDust } = spotEdits(resolved, report);
  const path = workspace.absolute(document.file);
  const written = edits.length === 0 || (await changeRecipe(call, path, document.text, edits));
  return written ? { dust, sensorDust } : undefined;
}
