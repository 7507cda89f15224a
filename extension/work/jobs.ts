/** The code of every job, by name. Only workers import it: callers import a room's handles (its `jobs.ts`). */
import { aboutCodecs } from "./about/about-codecs.ts";
import { aboutCodecsJob } from "./about/jobs.ts";
import { calibrateChart, calibrateWedge, readGrey } from "./calibrate/calibrate-scan.ts";
import { calibrateChartJob, calibrateWedgeJob, readGreyJob } from "./calibrate/jobs.ts";
import { composeContact } from "./contact/compose-contact.ts";
import { composeContactJob, composePdfJob, thumbnailJob } from "./contact/jobs.ts";
import { composePdf } from "./contact/pdf/compose-pdf.ts";
import { thumbnail } from "./contact/thumbnail.ts";
import { measureArrivalJob } from "./copy-stand/jobs.ts";
import { measureArrival } from "./copy-stand/measure/measure-arrival.ts";
import { contentDiffers } from "./files/content-differs.ts";
import { fingerprintFile, fingerprintScan } from "./files/fingerprint-file.ts";
import { contentDiffersJob, fingerprintJob, fingerprintScanJob } from "./files/jobs.ts";
import { linearProxyJob, measureJoinJob, readBaseJob, readLightJob, reduceScanJob } from "./frame/jobs.ts";
import { measureJoinOfScans } from "./frame/join/measure-join.ts";
import { linearProxy, reduceScan } from "./frame/preview-proxy.ts";
import { readBaseOfScan } from "./frame/read-base.ts";
import { readLight } from "./frame/read-light.ts";
import { readLensJob } from "./lens/jobs.ts";
import { readLens } from "./lens/read-lens.ts";
import { filmStock } from "./new-roll/film/film-stock.ts";
import { findFrame } from "./new-roll/pictures/find-frame.ts";
import { firstPass } from "./new-roll/scans/first-pass.ts";
import { filmStockJob, findFrameJob, firstPassJob } from "./new-roll/jobs.ts";
import type { Job, JobCode } from "./pool/job.ts";
import { checkProfile } from "./render/encode-sheet.ts";
import { checkProfileJob, proofJob, renderFrameJob } from "./render/jobs.ts";
import { proofOfPrinter } from "./render/proof.ts";
import { renderFrame } from "./render/render-frame.ts";
import { compareFrame } from "./review/compare-frame.ts";
import { listRevisions } from "./review/git/list-revisions.ts";
import { readHistory } from "./review/history.ts";
import { compareFrameJob, listRevisionsJob, readHistoryJob } from "./review/jobs.ts";
import { surveyBlankJob, surveyScanJob } from "./survey/jobs.ts";
import { surveyBlank } from "./survey/survey-blank.ts";
import { surveyScan } from "./survey/survey-scan.ts";

const entry = <Payload, Value>(job: Job<Payload, Value>, code: JobCode<Payload, Value>) =>
  [job.name, code as JobCode<unknown, unknown>] as const;

export const jobs: ReadonlyMap<string, JobCode<unknown, unknown>> = new Map([
  entry(aboutCodecsJob, aboutCodecs),
  entry(calibrateChartJob, calibrateChart),
  entry(calibrateWedgeJob, calibrateWedge),
  entry(checkProfileJob, checkProfile),
  entry(compareFrameJob, compareFrame),
  entry(composeContactJob, composeContact),
  entry(composePdfJob, composePdf),
  entry(contentDiffersJob, contentDiffers),
  entry(filmStockJob, filmStock),
  entry(findFrameJob, findFrame),
  entry(fingerprintJob, fingerprintFile),
  entry(fingerprintScanJob, fingerprintScan),
  entry(firstPassJob, firstPass),
  entry(linearProxyJob, linearProxy),
  entry(reduceScanJob, reduceScan),
  entry(listRevisionsJob, (options) => listRevisions(options)),
  entry(measureArrivalJob, measureArrival),
  entry(measureJoinJob, measureJoinOfScans),
  entry(proofJob, proofOfPrinter),
  entry(readBaseJob, readBaseOfScan),
  entry(readGreyJob, readGrey),
  entry(readHistoryJob, (options) => readHistory(options)),
  entry(readLensJob, readLens),
  entry(readLightJob, readLight),
  entry(renderFrameJob, renderFrame),
  entry(surveyBlankJob, surveyBlank),
  entry(surveyScanJob, surveyScan),
  entry(thumbnailJob, thumbnail),
]);
