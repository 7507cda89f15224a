/** The editor's panel: reviews come as messages, and what is done with a change goes back as one. */
import type { ReviewPicture, ToReviewHost, ToReviewPage } from "../../extension/review-report.ts";
import { el } from "../dom.ts";
import { type StateApi, stateKeeper } from "../kept-state.ts";
import { openReview } from "./app.ts";
import "./review.css";
import { type Actions, type Kept, Session } from "./session.ts";
import { keyOf, type ShownPicture, type ShownReview } from "./shown.ts";
import { useWordsOf, word } from "../words.ts";

interface Editor extends StateApi {
  postMessage(message: ToReviewHost): void;
}
type KeptState = Kept & { readonly request?: unknown };
declare function acquireVsCodeApi(): Editor;

const editor = acquireVsCodeApi();
const root = document.getElementById("review") as HTMLElement;
useWordsOf(root);
const keeper = stateKeeper(editor, root);
/** What was asked for: kept with the page, so that the review can be made again after the window was loaded anew. */
const request: unknown = JSON.parse(root.dataset["request"] ?? "null");
const status = el("p", { class: "status", role: "status" });
root.before(status);

const actionsOf = (canAccept: boolean): Actions => ({
  canAccept,
  showText: (change) => editor.postMessage({ kind: "text", change }),
  take: (change, side) => editor.postMessage({ kind: "take", change, side }),
  note: (file, frame, about) => editor.postMessage({ kind: "note", file, frame, about }),
  compareTexts: (file) => editor.postMessage({ kind: "texts", file }),
});

let session: Session | undefined;
let addresses: string[] = [];

addEventListener("message", ({ data }: MessageEvent<ToReviewPage>) => {
  if (data.kind === "progress") say(word("{0} ({1} of {2})", data.label, data.done, data.total));
  else if (data.kind === "failed") say(data.message);
  else if (data.kind === "stale") say(word("The texts changed since."), word("Review again"));
  else show(data);
});

function show({ review, frame }: ToReviewPage & { kind: "review" }): void {
  const old = addresses;
  addresses = [];
  const shown = withAddresses(review);
  say("");
  const wanted = frame ? { entry: `${frame.file}\n${frame.id}` } : {};
  if (session) session.replace(shown);
  else {
    session = new Session(
      shown,
      { ...(keeper.getState() as KeptState | undefined), ...wanted },
      actionsOf(review.after.commit !== undefined),
    );
    openReview(session, root);
    session.on(() => session && keeper.setState({ ...session.kept, request }));
  }
  const entry =
    frame &&
    shown.recipes
      .flatMap((recipe) => recipe.frames.map((one) => ({ recipe, frame: one })))
      .find((one) => keyOf(one) === wanted.entry);
  if (entry) session.set({ entry });
  for (const address of old) URL.revokeObjectURL(address);
}

/** Pictures get an address in this page; bytes stay where they are. */
function withAddresses(review: (ToReviewPage & { kind: "review" })["review"]): ShownReview {
  const addressed = (picture: ReviewPicture | undefined): ShownPicture | undefined => {
    if (!picture) return undefined;
    const { bytes, ...rest } = picture;
    const source = URL.createObjectURL(new Blob([bytes.slice()], { type: `image/${picture.type}` }));
    addresses.push(source);
    return { ...rest, source };
  };
  return {
    ...review,
    recipes: review.recipes.map((recipe) => ({
      ...recipe,
      frames: recipe.frames.map((frame) => ({
        ...frame,
        before: addressed(frame.before),
        after: addressed(frame.after),
        map: addressed(frame.map),
      })),
    })),
  };
}

function say(text: string, offer?: string): void {
  const button = offer === undefined ? undefined : el("button", { type: "button" }, offer);
  button?.addEventListener("click", () => editor.postMessage({ kind: "again" }));
  status.replaceChildren(text, ...(button ? [" ", button] : []));
  status.hidden = text === "";
}

keeper.setState({ ...(keeper.getState() as KeptState | undefined), request });
say(word("Reading the recipes…"));
editor.postMessage({ kind: "ready" });
