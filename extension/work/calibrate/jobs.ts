/** The jobs of this room, as handles. */
import { defineJob } from "../pool/job.ts";
import type { calibrateChart, calibrateWedge, readGrey } from "./calibrate-scan.ts";

export const calibrateChartJob = defineJob<typeof calibrateChart>("calibrate-chart");
export const calibrateWedgeJob = defineJob<typeof calibrateWedge>("calibrate-wedge");
export const readGreyJob = defineJob<typeof readGrey>("read-grey");
