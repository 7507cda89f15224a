/** Puts the sheet together. */
import type { SheetRequests } from "../../extension/messages.ts";
import { createRpcClient, dispatchEvent } from "../../extension/rpc.ts";
import { el } from "../dom.ts";
import type { Host } from "../preview/session.ts";
import { t } from "../translate.ts";
import { makeBar } from "./bar.ts";
import { makeBeside } from "./beside.ts";
import { listenForChoice } from "./choosing.ts";
import { type Grid, makeGrid } from "./grid.ts";
import { makeOffer } from "./offer.ts";
import { listenToSheetKeys } from "./sheet-keys.ts";
import { makeSheetSession, type SheetSession } from "./sheet-session.ts";
import { makeTilePainter } from "./tiles/tile-painter.ts";
import { makeGestures, makeWork } from "./work.ts";

/** Milliseconds until a request to the host fails by itself, where it states no limit of its own. */
const REPLY_LIMIT = 30_000;

export interface SheetSurroundings {
  readonly host: Host;
  /** The worker that paints tiles; without one the page paints them. */
  readonly tileWorker: Worker | undefined;
  /** Makes the worker of a picture side by side with others. */
  readonly makeWorker: () => Promise<Worker | undefined>;
  /** Whether WebGL is used for them: where it is real, never, or even where it is only imitated. */
  readonly gpu?: "real" | "never" | "always";
}

export interface Sheet {
  readonly session: SheetSession;
  readonly grid: Grid;
  receive(message: unknown): void;
}

export function makeSheet(root: HTMLElement, { host, tileWorker, makeWorker, gpu = "real" }: SheetSurroundings): Sheet {
  const client = createRpcClient<SheetRequests>((message) => host.postMessage(message), { limit: REPLY_LIMIT });
  const session = makeSheetSession(host, client);
  const grid = makeGrid(session, makeTilePainter(tileWorker));
  const gestures = makeGestures(session);
  const beside = makeBeside(session, { makeWorker, gpu });
  const { lines, live } = makeOffer(session);
  const bar = makeBar(session);
  listenForChoice(session, grid);
  listenToSheetKeys(session, gestures);
  root.classList.add("sheet");
  const title = el("h1", { class: "live" });
  root.append(
    el("header", {}, title, bar, lines),
    el("main", {}, el("div", { class: "viewing" }, grid.element, beside), makeWork(session, gestures)),
    live,
  );
  let wasBeside = false;
  let hadOffer = false;
  let hadFrames = false;
  session.store.on(({ settings, beside: ids, selection, roll, frames, draft }) => {
    const name = t("Roll sheet: {0}", roll?.title ?? "");
    if (title.textContent !== name) title.textContent = name;
    root.style.setProperty("--surround", `lab(${settings.surround}% 0 0)`);
    const isBeside = ids.length > 0;
    grid.element.hidden = isBeside;
    bar.hidden = isBeside;
    const hasOffer = draft?.offer !== undefined;
    const hasFrames = frames.length > 0;
    // Whoever opens the sheet, or comes back to it from pictures side by side or from an answer, goes on by the keyboard.
    const goesOn = (wasBeside && !isBeside) || (hadOffer && !hasOffer) || (!hadFrames && hasFrames && isFocusFree());
    if (goesOn && !isBeside && selection.focus !== undefined) grid.focus(selection.focus);
    [wasBeside, hadOffer, hadFrames] = [isBeside, hasOffer, hasFrames];
  });
  queueMicrotask(() => void session.start());
  return {
    session,
    grid,
    receive(message) {
      if (!dispatchEvent(message, session.events)) client.receive(message);
    },
  };
}

/** Whether the page has the keyboard and nothing in it does. */
const isFocusFree = (): boolean =>
  document.hasFocus() && (document.activeElement === null || document.activeElement === document.body);
