/** The jobs of this room, as handles. */
import { defineJob } from "../pool/job.ts";
import type { surveyBlank } from "./survey-blank.ts";
import type { surveyScan } from "./survey-scan.ts";

export const surveyBlankJob = defineJob<typeof surveyBlank>("survey-blank");
export const surveyScanJob = defineJob<typeof surveyScan>("survey-scan");
