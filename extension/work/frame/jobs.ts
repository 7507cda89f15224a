/** The jobs of this room, as handles. */
import { defineJob } from "../pool/job.ts";
import type { measureJoinOfScans } from "./join/measure-join.ts";
import type { linearProxy, reduceScan } from "./preview-proxy.ts";
import type { readBaseOfScan } from "./read-base.ts";
import type { readLight } from "./read-light.ts";

export const linearProxyJob = defineJob<typeof linearProxy>("linear-proxy");
export const measureJoinJob = defineJob<typeof measureJoinOfScans>("measure-join");
export const reduceScanJob = defineJob<typeof reduceScan>("reduce-scan");
export const readBaseJob = defineJob<typeof readBaseOfScan>("read-base");
export const readLightJob = defineJob<typeof readLight>("read-light");
