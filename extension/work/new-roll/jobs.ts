/** The jobs of this room, as handles. */
import { defineJob } from "../pool/job.ts";
import type { filmStock } from "./film/film-stock.ts";
import type { findFrame } from "./pictures/find-frame.ts";
import type { firstPass } from "./scans/first-pass.ts";

export const filmStockJob = defineJob<typeof filmStock>("film-stock");
export const findFrameJob = defineJob<typeof findFrame>("find-frame");
export const firstPassJob = defineJob<typeof firstPass>("first-pass");
