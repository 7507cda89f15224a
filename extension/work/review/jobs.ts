/** The jobs of this room, as handles. git runs in a worker, because the editor's own process starts no program. */
import { defineJob } from "../pool/job.ts";
import type { compareFrame } from "./compare-frame.ts";
import type { Revision, RevisionOptions } from "./git/list-revisions.ts";
import type { History, HistoryOptions } from "./history.ts";

export const compareFrameJob = defineJob<typeof compareFrame>("compare-frame");
export const listRevisionsJob = defineJob<(options: RevisionOptions) => Promise<Revision[]>>("list-revisions");
export const readHistoryJob = defineJob<(options: HistoryOptions) => Promise<History>>("read-history");
