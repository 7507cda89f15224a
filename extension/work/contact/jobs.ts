/** The jobs of this room, as handles. */
import { defineJob } from "../pool/job.ts";
import type { composeContact } from "./compose-contact.ts";
import type { composePdf } from "./pdf/compose-pdf.ts";
import type { thumbnail } from "./thumbnail.ts";

export const composeContactJob = defineJob<typeof composeContact>("compose-contact");
export const composePdfJob = defineJob<typeof composePdf>("compose-pdf");
export const thumbnailJob = defineJob<typeof thumbnail>("thumbnail");
