/** The table of verbs. Dispatch, overview, shell completion and man page are made from it. */
import { base } from "./base.ts";
import { cache } from "./cache.ts";
import { calibrate } from "./calibrate/index.ts";
import { check } from "./check.ts";
import { completion } from "./shell/completion.ts";
import { contact } from "./contact.ts";
import { doctor } from "./doctor.ts";
import { films } from "./films.ts";
import { format } from "./format.ts";
import { gitSetup } from "./git-setup.ts";
import { join } from "./join.ts";
import { languageServer } from "./language-server.ts";
import { lens } from "./lens.ts";
import { lock } from "./lock.ts";
import { man } from "./shell/man-page.ts";
import { mergeDriver } from "./merge-driver.ts";
import { newRoll } from "./new.ts";
import { notes } from "./notes.ts";
import { render } from "./render.ts";
import { review } from "./review.ts";
import { schema } from "./schema.ts";
import { stock } from "./stock.ts";
import { survey } from "./survey.ts";
import { textconv } from "./textconv.ts";
import { watch } from "./watch.ts";
import type { Verb } from "./verb.ts";

export const verbs: readonly Verb[] = [
  watch,
  newRoll,
  films,
  check,
  format,
  base,
  survey,
  render,
  contact,
  join,
  lens,
  lock,
  notes,
  review,
  gitSetup,
  textconv,
  mergeDriver,
  calibrate,
  stock,
  doctor,
  cache,
  schema,
  languageServer,
  completion(() => verbs),
  man(() => verbs),
];
