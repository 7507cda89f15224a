/** Every job that the workers know, by name. */
import type { JobContext } from "./pool/job-context.ts";
import { calibrateChart, calibrateWedge, readGrey } from "./calibrate/calibrate-scan.ts";
import { compareFrame } from "./review/compare-frame.ts";
import { composeContact } from "./contact/compose-contact.ts";
import { contentDiffers } from "./files/content-differs.ts";
import { filmStock } from "./new-roll/film-stock.ts";
import { findFrame } from "./new-roll/find-frame.ts";
import { fingerprintFile } from "./files/fingerprint-file.ts";
import { linearProxy } from "./frame/preview-proxy.ts";
import { firstPass } from "./new-roll/first-look.ts";
import { measureArrival } from "./copy-stand/measure-arrival.ts";
import { measureJoinJob } from "./frame/join/measure-join.ts";
import { readBaseJob } from "./frame/read-base.ts";
import { listRevisionsJob, readHistoryJob } from "./review/git/read-git.ts";
import { readLight } from "./frame/read-light.ts";
import { renderFrame } from "./render/render-frame.ts";
import { surveyBlank } from "./survey/survey-blank.ts";
import { surveyScan } from "./survey/survey-scan.ts";
import { thumbnail } from "./contact/thumbnail.ts";

export const jobs = {
  "read-light": readLight,
  "read-base": readBaseJob,
  "look-over": firstPass,
  "find-frame": findFrame,
  "film-stock": filmStock,
  "calibrate-chart": calibrateChart,
  "calibrate-wedge": calibrateWedge,
  "read-grey": readGrey,
  "render-frame": renderFrame,
  "measure-arrival": measureArrival,
  "measure-join": measureJoinJob,
  "survey-blank": surveyBlank,
  "survey-scan": surveyScan,
  thumbnail,
  "compare-frame": compareFrame,
  "compose-contact": composeContact,
  "linear-proxy": linearProxy,
  fingerprint: fingerprintFile,
  "content-differs": contentDiffers,
  "read-history": readHistoryJob,
  "list-revisions": listRevisionsJob,
} satisfies Record<string, (payload: never, context: JobContext) => Promise<unknown>>;

type JobTypes = {
  readonly [N in keyof typeof jobs]: {
    readonly payload: Parameters<(typeof jobs)[N]>[0];
    readonly value: Awaited<ReturnType<(typeof jobs)[N]>>;
  };
};

declare module "./pool/protocol.ts" {
  interface Jobs extends JobTypes {}
}
