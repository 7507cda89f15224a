/** The jobs of this room, as handles. */
import { defineJob } from "../pool/job.ts";
import type { checkProfile } from "./encode-sheet.ts";
import type { proofOfPrinter } from "./proof.ts";
import type { renderFrame } from "./render-frame.ts";

export const checkProfileJob = defineJob<typeof checkProfile>("check-profile");
export const proofJob = defineJob<typeof proofOfPrinter>("proof");
export const renderFrameJob = defineJob<typeof renderFrame>("render-frame");
