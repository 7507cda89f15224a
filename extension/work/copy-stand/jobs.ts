/** The job of this room, as a handle. */
import { defineJob } from "../pool/job.ts";
import type { measureArrival } from "./measure/measure-arrival.ts";

export const measureArrivalJob = defineJob<typeof measureArrival>("measure-arrival");
