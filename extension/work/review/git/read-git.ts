/** git, for an editor whose own process starts no program. */
import { type History, type HistoryWish, readHistory } from "../history.ts";
import { listRevisions, type Revision, type RevisionWish } from "./list-revisions.ts";

export const readHistoryJob = (wish: HistoryWish): Promise<History> => readHistory(wish);

export const listRevisionsJob = (wish: RevisionWish): Promise<Revision[]> => listRevisions(wish);
