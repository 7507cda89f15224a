/** git, for an editor whose own process starts no program. */
import { type History, type HistoryOptions, readHistory } from "../history.ts";
import { listRevisions, type Revision, type RevisionOptions } from "./list-revisions.ts";

export const readHistoryJob = (options: HistoryOptions): Promise<History> => readHistory(options);

export const listRevisionsJob = (options: RevisionOptions): Promise<Revision[]> => listRevisions(options);
