/** The job of this room, as a handle. */
import { defineJob } from "../pool/job.ts";
import type { renderFrame } from "./render-frame.ts";

export const renderFrameJob = defineJob<typeof renderFrame>("render-frame");
