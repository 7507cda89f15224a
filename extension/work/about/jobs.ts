/** The job of this room, as a handle. */
import { defineJob } from "../pool/job.ts";
import type { aboutCodecs } from "./about-codecs.ts";

export const aboutCodecsJob = defineJob<typeof aboutCodecs>("about-codecs");
