/** What a check of the copy stand reports, before the rules weigh it. */
import type { Message } from "../messages.ts";
import type { Box } from "../survey/types.ts";
import type { VerdictWord } from "./types.ts";

/** Something that was seen on a scan, before the rules say what it means. */
export interface Observation {
  readonly code: string;
  readonly message: Message;
  readonly areas: readonly Box[];
  /** Where it weighs otherwise than its rule says. */
  readonly word?: VerdictWord;
  readonly remedy?: Message;
}
