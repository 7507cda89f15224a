/** The jobs of this room, as handles. */
import { defineJob } from "../pool/job.ts";
import type { contentDiffers } from "./content-differs.ts";
import type { fingerprintFile, fingerprintScan } from "./fingerprint-file.ts";

export const contentDiffersJob = defineJob<typeof contentDiffers>("content-differs");
export const fingerprintScanJob = defineJob<typeof fingerprintScan>("fingerprint-scan");
export const fingerprintJob = defineJob<typeof fingerprintFile>("fingerprint");
