/** The editor's panel: reviews come as messages, and what is done with a change goes back as one. */
import type { ReviewEvents, ReviewPageEvents, ReviewPicture } from "../../extension/review-report.ts";
import { createEmitter, dispatchEvent } from "../../extension/rpc.ts";
import { el } from "../dom.ts";
import { type StateApi, stateSaver } from "../kept-state.ts";
import { openReview } from "./app.ts";
import "./review.css";
import { type Actions, type Kept, Session } from "./session.ts";
import type { ShownPicture, ShownReview } from "./shown.ts";
import { useTranslationsOf, t } from "../translate.ts";

type KeptState = Kept & { readonly request?: unknown };
declare function acquireVsCodeApi(): StateApi;

const editor = acquireVsCodeApi();
const emit = createEmitter<ReviewPageEvents>((message) => editor.postMessage(message));
const root = document.getElementById("review") as HTMLElement;
useTranslationsOf(root);
const keeper = stateSaver(editor, root);
/** What was asked for: kept with the page, so that the review can be made again after the window was reloaded. */
const request: unknown = JSON.parse(root.dataset["request"] ?? "null");
const status = el("p", { class: "status", role: "status" });
root.before(status);

const actionsOf = (canAccept: boolean): Actions => ({
  canAccept,
  showText: (change) => emit("text", { change }),
  take: (change, side) => emit("take", { change, side }),
  note: (file, frame, about) => emit("note", { file, frame, about }),
  compareTexts: (file) => emit("texts", { file }),
});

let session: Session | undefined;
let addresses: string[] = [];

addEventListener("message", ({ data }) =>
  dispatchEvent<ReviewEvents>(data, {
    review: show,
    progress: ({ label, done, total }) => showStatus(t("{0} ({1} of {2})", label, done, total)),
    failed: ({ message }) => showStatus(message),
    stale: () => showStatus(t("The texts changed since."), t("Review again")),
    taken: ({ change, side }) => session?.set({ taken: new Map([...session.state.taken, [change, side]]) }),
  }),
);

function show({ review, frame }: ReviewEvents["review"]): void {
  const old = addresses;
  addresses = [];
  const shown = withAddresses(review);
  showStatus("");
  if (session) session.replace(shown);
  else {
    session = new Session(
      shown,
      keeper.getState() as KeptState | undefined,
      actionsOf(review.after.commit !== undefined),
    );
    openReview(session, root);
    session.on(() => session && keeper.setState({ ...session.kept, request }));
  }
  // Whoever asked for one frame is told where there is nothing to see of it.
  if (frame && !session.lookAt(`${frame.file}\n${frame.id}`))
    session.set({
      entry: undefined,
      message: t("Frame {0} did not change: {1} and {2} state the same values.", frame.id, ...sides(shown)),
    });
  for (const address of old) URL.revokeObjectURL(address);
}

/** The two states by name. */
const sides = ({ before, after }: ShownReview): [string, string] => [before.label, after.label];

/** Pictures get an address in this page; bytes stay where they are. */
function withAddresses(review: ReviewEvents["review"]["review"]): ShownReview {
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

function showStatus(text: string, offer?: string): void {
  const button = offer === undefined ? undefined : el("button", { type: "button" }, offer);
  button?.addEventListener("click", () => emit("again", null));
  status.replaceChildren(text, ...(button ? [" ", button] : []));
  status.hidden = text === "";
}

keeper.setState({ ...(keeper.getState() as KeptState | undefined), request });
showStatus(t("Reading the recipes…"));
emit("ready", null);
