/** The review's page with data that have no words, in a language without letters. Driven by review-words.test.ts. */
import type { ReviewChange } from "../../extension/review-report.ts";
import { openReview } from "../../webview/review/app.ts";
import { type Mode, Session } from "../../webview/review/session.ts";
import { entriesOf, type ShownFrame, type ShownRecipe } from "../../webview/review/shown.ts";
import { useTranslations } from "../../webview/translate.ts";
import { marksOf } from "./letters.ts";

declare global {
  interface Window {
    openWords(marked: boolean): void;
    show(entry: number, mode: Mode): void;
    readonly entries: number;
  }
}

const PICTURE = {
  width: 3,
  height: 2,
  type: "png",
  source: "data:image/gif;base64,R0lGODlhAQABAAAAACH5BAEKAAEALAAAAAABAAEAAAICTAEAOw==",
} as const;

const frame = (id: string, more: Partial<ShownFrame> = {}): ShownFrame => ({
  id,
  status: "changed",
  looksDifferent: true,
  reframed: true,
  difference: { mean: 1.5, p95: 4.25, max: 9 },
  before: PICTURE,
  after: PICTURE,
  map: PICTURE,
  notes: ["1"],
  ...more,
});
const change = (id: string, more: Partial<ReviewChange> = {}): ReviewChange => ({
  id,
  group: "1",
  kind: "changed",
  name: "2",
  text: "3",
  before: "4",
  after: "5",
  followers: [],
  place: { file: "6", line: 7, column: 1 },
  ...more,
});
const recipe = (file: string, more: Partial<ShownRecipe> = {}): ShownRecipe => ({
  kind: "roll",
  file,
  status: "changed",
  formattingOnly: false,
  changes: [],
  frames: [],
  of: 3,
  impact: [],
  problems: [],
  ...more,
});

const recipes: readonly ShownRecipe[] = [
  recipe("1", {
    changes: [
      change("1", { frame: "07", kind: "restated", before: undefined }),
      change("2", { followers: ["07", "08"] }),
      change("3", { followers: ["07", "08", "09"], origin: "8", after: undefined }),
      change("4", { before: undefined, after: undefined }),
    ],
    frames: [
      frame("07", { was: "06" }),
      frame("08", { status: "added", before: undefined, map: undefined, difference: undefined }),
      frame("09", { status: "removed", after: undefined, map: undefined, difference: undefined }),
      frame("10", {
        looksDifferent: false,
        before: undefined,
        after: undefined,
        map: undefined,
        difference: undefined,
      }),
      frame("11", { before: undefined, after: undefined, map: undefined, difference: undefined }),
      frame("12", { pending: true }),
      frame("13", { reframed: false, notes: [], difference: { mean: 0.1, p95: 0.2, max: 0.3 } }),
      frame("14", { reframed: false, notes: [], difference: { mean: 0.1, p95: 0.2, max: 0.3 } }),
    ],
    impact: [{ file: "1", frames: 2, of: 3 }],
  }),
  recipe("2", { kind: "stock", status: "added", impact: ["1", "2"].map((file) => ({ file, frames: 2, of: 3 })) }),
  recipe("3", { kind: "stock", status: "removed" }),
  recipe("4", { status: "added" }),
  recipe("5", { status: "removed" }),
  recipe("6", { status: "affected" }),
  recipe("7", { status: "renamed", was: "0" }),
  recipe("8", { formattingOnly: true }),
  recipe("9"),
];

window.openWords = (marked) => {
  if (marked) useTranslations(marksOf());
  const nothing = (): void => undefined;
  const actions = { canAccept: true, showText: nothing, take: nothing, note: nothing, compareTexts: nothing };
  const review = { before: { label: "1" }, after: { label: "2", commit: "3" }, rendered: true, recipes };
  const session = new Session(review, {}, actions);
  const root = document.getElementById("review");
  if (!root) throw new Error("The page has no place for the review.");
  openReview(session, root);
  const entries = entriesOf(review, new Set(recipes.map(({ file }) => file)));
  session.set({ taken: new Map([["1", "before"] as const, ["2", "after"] as const]) });
  Object.assign(window, {
    entries: entries.length,
    show: (entry: number, mode: Mode) => {
      if (entries[entry]?.fold) session.toggleFold(entries[entry].recipe);
      session.set({ entry: entries[entry], mode });
    },
  });
};
