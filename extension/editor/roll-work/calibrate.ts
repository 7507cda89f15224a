/** The command that calibrates by a chart, a grey card, or the table of a characteristic curve. */
import { basename } from "node:path";
import * as vscode from "vscode";
import { CHART_24 } from "../../engine/calibrate/chart-24.ts";
import { GOOD_MEAN, mean } from "../../engine/calibrate/chart-fit.ts";
import { neutralise } from "../../engine/calibrate/grey.ts";
import type { ReadingArea } from "../../engine/flat-field/densitometer.ts";
import { readCurveTable } from "../../recipe/curve-table.ts";
import type { ValueEdit } from "../../recipe/edit/edit.ts";
import type { ResolvedFrame } from "../../recipe/resolve/resolve.ts";
import { errorText } from "../../scans/files/system-errors.ts";
import { areaOf, chartValues, curveValues, exposureEdit, greyValues } from "../../work/calibrate/calibration-values.ts";
import { calibrateChartJob, readGreyJob } from "../../work/calibrate/jobs.ts";
import { readPlainFile } from "../../work/files/read-plain-file.ts";
import { lightTable } from "../../work/frame/frame-setup.ts";
import type { Pool } from "../../work/pool/pool.ts";
import type { EditorServices } from "../services.ts";
import { uriOf } from "../uris.ts";
import { writeValues } from "./recipe-edits.ts";
import { type LoadedRoll, loadValidRoll } from "./valid-roll.ts";
import { withProgress } from "./with-progress.ts";

/** Where values can be written: the roll, or the stock that it names. */
interface Target {
  readonly uri: vscode.Uri;
  readonly isRoll: boolean;
}

/** The command: asks what to calibrate by, measures with progress, shows what was found, and writes it when told where. */
export async function calibrate(given: unknown, services: EditorServices, pool: Pool): Promise<void> {
  const found = await loadValidRoll(given, services);
  if (!found) return;
  const { t } = services;
  const kind = await vscode.window.showQuickPick(
    [
      {
        label: t("Chart of 24 patches"),
        detail: t("Curve, matrices and filtration, from a frame that shows it"),
        chosen: "chart" as const,
      },
      {
        label: t("Grey card"),
        detail: t("Filtration and exposure, from a frame that shows it"),
        chosen: "grey" as const,
      },
      {
        label: t("Characteristic curve"),
        detail: t("From a table with logH and densities, as a data sheet is digitised"),
        chosen: "curve" as const,
      },
    ],
    { title: t("Calibrate {0}", found.name), placeHolder: t("By what") },
  );
  if (kind?.chosen === "chart") await byChart(found, services, pool);
  if (kind?.chosen === "grey") await byGrey(found, services, pool);
  if (kind?.chosen === "curve") await byCurve(found, services);
}

async function byChart(roll: LoadedRoll, services: EditorServices, pool: Pool): Promise<void> {
  const { t, log } = services;
  const frame = await askFrame(roll, t("Which frame shows the chart?"));
  if (!frame) return;
  const found = await onScan(
    t("Measuring the chart on frame {0}", frame.id),
    roll,
    frame,
    services,
    pool,
    (on, signal) =>
      pool.run(calibrateChartJob, { ...on, look: frame.look, area: frame.area, reference: CHART_24 }, { signal }),
  );
  if (!found) return;
  const { fit, seen, reading } = found;
  const { edits, exposure } = chartValues(fit, roll.reading.resolved.film);
  const figures = t(
    "{0} of {1} patches seen; mean ΔE00 {2}, {3} on patches that were left out of the fit.",
    seen,
    CHART_24.length,
    mean(fit.errors).toFixed(2),
    mean(fit.heldOut).toFixed(2),
  );
  const isDoubtful = mean(fit.errors) > GOOD_MEAN || mean(fit.heldOut) > 1.5 * GOOD_MEAN;
  const doubt = isDoubtful
    ? t("Charts usually fit better: look for uneven light, reflections on the chart, a wrong base, or noise.")
    : "";
  const clipped = reading.clipped.length > 0 ? t("Clipped and left out: {0}.", reading.clipped.join(", ")) : "";
  const message = [figures, clipped, doubt].filter(Boolean).join(" ");
  log.info(`${roll.name}, frame ${frame.id}: ${message}`);
  const target = await askTarget(message, roll, services);
  if (target) await write(target, [...edits, ...(target.isRoll ? [exposureEdit(frame.id, exposure)] : [])], services);
}

async function byGrey(roll: LoadedRoll, services: EditorServices, pool: Pool): Promise<void> {
  const { t } = services;
  const frame = await askFrame(roll, t("Which frame shows the grey card?"));
  const area = frame && (await askArea(frame, services));
  if (!frame || !area) return;
  const title = t("Measuring the grey card on frame {0}", frame.id);
  const found = await onScan(title, roll, frame, services, pool, (on, signal) =>
    pool.run(readGreyJob, { ...on, area }, { signal }),
  );
  if (!found) return;
  const { filtration, exposure } = greyValues(neutralise(frame.look, found.transmittance));
  const edits = [{ path: ["positive", "filtration"], value: filtration }, exposureEdit(frame.id, exposure)];
  const { cyan, magenta, yellow } = filtration;
  const done = await writeValues(roll.uri, edits, services);
  if (done)
    void vscode.window.showInformationMessage(
      t(
        "Filtration C {0}, M {1}, Y {2} for the roll, exposure {3} EV for frame {4} are written.",
        cyan,
        magenta,
        yellow,
        exposure,
        frame.id,
      ),
    );
}

async function byCurve(roll: LoadedRoll, services: EditorServices): Promise<void> {
  const { t } = services;
  const [table] =
    (await vscode.window.showOpenDialog({
      title: t("Table of a characteristic curve"),
      defaultUri: vscode.Uri.joinPath(roll.uri, ".."),
      filters: { [t("Tables")]: ["csv", "tsv", "txt"] },
      openLabel: t("Read the curve"),
    })) ?? [];
  if (!table) return;
  try {
    const text = readPlainFile(table.fsPath).toString("utf8");
    const { curves, edits } = curveValues(readCurveTable(text, basename(table.fsPath)));
    const about = curves.map(([channel, { gamma, dmin, dmax }]) =>
      t("{0}: gamma {1}, density {2} to {3}", channel, gamma.toFixed(2), dmin.toFixed(2), dmax.toFixed(2)),
    );
    const target = await askTarget(`${about.join("; ")}.`, roll, services);
    if (target) await write(target, edits, services);
  } catch (error) {
    void vscode.window.showErrorMessage(errorText(error));
  }
}

/** Frames of one scan; a target is read off one. */
async function askFrame({ reading }: LoadedRoll, title: string): Promise<ResolvedFrame | undefined> {
  const picked = await vscode.window.showQuickPick(
    reading.resolved.frames
      .filter(({ scans, skip }) => scans.length === 1 && !skip)
      .map((frame) => ({ label: frame.id, description: frame.title ?? frame.scans[0]!.name, frame })),
    { title, matchOnDescription: true },
  );
  return picked?.frame;
}

/** The card's place on the scan; proposed is the middle of the crop. */
async function askArea({ id, area }: ResolvedFrame, { t }: EditorServices): Promise<ReadingArea | undefined> {
  const middle = [area.left + 0.45 * area.width, area.top + 0.45 * area.height, 0.1 * area.width, 0.1 * area.height];
  const text = await vscode.window.showInputBox({
    title: t("Grey card on frame {0}", id),
    prompt: t("Left, top, width and height of the card, in fractions of the scan’s sides"),
    value: middle.map((v) => v.toFixed(3)).join(", "),
    validateInput: (given) => (areaOf(given) ? undefined : t("Four numbers from 0 to 1 with commas, within the scan.")),
  });
  return text === undefined ? undefined : areaOf(text);
}

/** Measures something on a frame's scan, with progress and a way to cancel. */
function onScan<T>(
  title: string,
  { reading, workspace }: LoadedRoll,
  frame: ResolvedFrame,
  { log }: EditorServices,
  pool: Pool,
  measure: (
    on: { path: string; light: Awaited<ReturnType<ReturnType<typeof lightTable>["of"]>>["light"] },
    signal: AbortSignal,
  ) => Promise<T>,
): Promise<T | undefined> {
  return withProgress(title, log, async ({ signal }) => {
    const { light } = await lightTable(reading.resolved, workspace, pool, signal).of(frame);
    return await measure({ path: workspace.absolute(frame.scans[0]!.path), light }, signal);
  });
}

/** Shows what was found, and asks whether roll or stock is to have it; undefined where neither is. */
async function askTarget(
  message: string,
  { uri, reading }: LoadedRoll,
  { t }: EditorServices,
): Promise<Target | undefined> {
  const { stock } = reading.resolved;
  const [toStock, toRoll] = [t("Write to the stock"), t("Write to the roll")];
  const answers = [...(stock ? [toStock] : []), toRoll];
  const answer = await vscode.window.showInformationMessage(message, { modal: true }, ...answers);
  if (answer === toRoll) return { uri, isRoll: true };
  return answer === toStock && stock ? { uri: uriOf(stock.file), isRoll: false } : undefined;
}

async function write({ uri }: Target, edits: readonly ValueEdit[], services: EditorServices): Promise<void> {
  if (!(await writeValues(uri, edits, services))) return;
  await vscode.window.showTextDocument(uri);
  void vscode.window.showInformationMessage(
    services.t("The calibration is written into {0}. One undo removes it.", vscode.workspace.asRelativePath(uri)),
  );
}
