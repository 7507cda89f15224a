/** The jobs of this room, as handles. */
import { defineJob } from "../pool/job.ts";
import type { readLens } from "./read-lens.ts";

export const readLensJob = defineJob<typeof readLens>("read-lens");
