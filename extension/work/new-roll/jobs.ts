/** The jobs of this room, as handles. */
import { defineJob } from "../pool/job.ts";
import type { filmStock } from "./film-stock.ts";
import type { findFrame } from "./find-frame.ts";
import type { firstPass } from "./first-look.ts";

export const filmStockJob = defineJob<typeof filmStock>("film-stock");
export const findFrameJob = defineJob<typeof findFrame>("find-frame");
export const firstPassJob = defineJob<typeof firstPass>("first-pass");
