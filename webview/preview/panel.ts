/** Puts the panel together. */
import type { PreviewRequests } from "../../extension/messages.ts";
import { createRpcClient, dispatchEvent } from "../../extension/rpc.ts";
import { el } from "../dom.ts";
import { listenToKeys } from "./keys.ts";
import { makeCurve } from "./sections/curve.ts";
import { makeDetail } from "./picture/detail.ts";
import { makeFraming } from "./sections/framing.ts";
import { makeHistograms } from "./sections/histograms.ts";
import { makeNegative } from "./sections/negative.ts";
import { makeHelp } from "./help.ts";
import { listenToMenus } from "./menus.ts";
import { Nudges } from "./nudges.ts";
import { makeLegend } from "./picture/legend.ts";
import { makeSpeckSheet } from "./speck-sheet.ts";
import { SpeckPictures } from "./specks.ts";
import { makeSplit } from "./split.ts";
import { BASE_PATH } from "../state/edits.ts";
import { makeLocalOverlay } from "./local/local-overlay.ts";
import { makeLocal } from "./local/local-section.ts";
import { LocalTool } from "./local/local-tool.ts";
import { makeNotices } from "./notices.ts";
import { makeOverlay } from "./picture/overlay.ts";
import { type DrawingOptions, openPicture } from "./picture/open-picture.ts";
import type { Picture } from "./picture/picture.ts";
import type { ToolChoices } from "./picture/tool.ts";
import { LineDrawing } from "./picture/line-drawing.ts";
import { makePointing } from "./picture/pointing.ts";
import { followProof } from "./proof.ts";
import { makePrint } from "./sections/print.ts";
import { makeProposals } from "./sections/proposals.ts";
import { makeReadings } from "./sections/readings.ts";
import { makeSpots } from "./sections/spots.ts";
import { makeStrip, makeStripFold } from "./strip.ts";
import { makeToolbar } from "./toolbar.ts";
import { makeWipe } from "./picture/wipe.ts";
import type { Surface } from "../render/surface.ts";
import { type Host, makeSession, type Session } from "./session.ts";
import { CONTROLS } from "../state/controls.ts";
import { CURVE_PATH } from "./sections/curve-values.ts";
import { t } from "../translate.ts";
import { reasonOf } from "../reason.ts";

/** Milliseconds until a request to the host fails by itself, where it states no limit of its own. */
const REPLY_LIMIT = 30_000;

export interface Surroundings extends DrawingOptions {
  readonly host: Host;
}

export interface Panel {
  readonly session: Session;
  readonly picture: Picture;
  surface(): Surface;
  receive(message: unknown): void;
}

export function makePanel(root: HTMLElement, { host, ...drawing }: Surroundings): Panel {
  const client = createRpcClient<PreviewRequests>((message) => host.postMessage(message), { limit: REPLY_LIMIT });
  const session = makeSession(host, client);
  const stage = makeStage(session);
  const { picture, surface } = openPicture(session, stage, drawing);
  const specks = new SpeckPictures(session);
  const sheet = makeSpeckSheet(session, specks);
  const help = makeHelp();
  const local = new LocalTool(session);
  const { side, choices } = makeSide(session, local, specks, () => sheet.open());
  const overlay = makeOverlay(session, picture);
  stage.append(overlay.element, makeLocalOverlay(session, picture, local), makeWipe(session, stage));
  makePointing({ session, picture, overlay, choices, lines: new LineDrawing(session, overlay, choices) }, stage);
  makeDetail(session, picture);
  followProof(session, surface);
  const nudges = new Nudges(session);
  const flush = async (): Promise<void> => {
    nudges.flush();
    await local.flush();
  };
  listenToKeys({ session, picture, stage, nudges, flush, help, showSpecks: () => sheet.open() });
  listenToMenus(session, picture, stage);
  const { notices, live } = makeNotices(session);
  const title = el("h1", { class: "live" });
  const viewing = el("div", { class: "viewing" }, stage, makeLegend(session, surface), notices);
  const work = el("main", { class: "work" }, viewing);
  work.append(makeSplit(session, work).element, side);
  const toolbar = el(
    "header",
    {},
    title,
    makeToolbar(session, picture, () => help.toggle()),
  );
  root.append(toolbar, work, makeStripFold(session, makeStrip(session)), live, help.element, sheet.element);
  session.store.on(({ settings, roll }) => {
    root.style.setProperty("--surround", `lab(${settings.surround}% 0 0)`);
    title.textContent = t("Preview {0}", roll?.file ?? "");
  });
  session.wantCascades([...CONTROLS.filter((c) => c.version !== 1).map((c) => c.path), CURVE_PATH, BASE_PATH]);
  queueMicrotask(() => requestRoll(session));
  return {
    session,
    picture,
    surface,
    receive(message) {
      if (!dispatchEvent(message, session.events)) client.receive(message);
    },
  };
}

/** The room of the picture. It handles its keys itself, which its description names to screen readers. */
function makeStage(session: Session): HTMLElement {
  const keys = el(
    "span",
    { id: "stage-keys", hidden: true },
    t("Arrow keys pan, or move the tool’s cross; Enter does what a click would. The question mark lists all keys."),
  );
  const stage = el(
    "div",
    {
      class: "stage",
      tabindex: "0",
      role: "application",
      "aria-label": t("Picture"),
      "aria-roledescription": t("picture"),
      "aria-describedby": "stage-keys",
    },
    keys,
  );
  session.store.on(({ ui }) => {
    stage.dataset["tool"] = ui.tool;
    const frame = session.frame();
    stage.setAttribute("aria-label", frame ? t("Picture of frame {0}", frame.id) : t("Picture"));
  });
  return stage;
}

/** The sections with the frame's values, and what they set for the tools in the picture. */
function makeSide(
  session: Session,
  local: LocalTool,
  specks: SpeckPictures,
  showSpecks: () => void,
): { readonly side: HTMLElement; readonly choices: ToolChoices } {
  const print = makePrint(session);
  const negative = makeNegative(session);
  const framing = makeFraming(session);
  const spots = makeSpots(session, specks);
  const proposals = makeProposals(session, specks, showSpecks);
  // Each section has its column, so that none moves when another one opens.
  const first = el(
    "div",
    { class: "column" },
    print.exposure,
    print.tone,
    print.toning,
    makeCurve(session),
    makeLocal(session, local),
    negative.element,
  );
  const second = el(
    "div",
    { class: "column" },
    framing.element,
    spots.element,
    proposals,
    makeReadings(session),
    makeHistograms(session),
  );
  return {
    side: el(
      "section",
      { class: "side", "aria-label": t("Values") },
      print.scope,
      el("div", { class: "values" }, first, second),
    ),
    choices: {
      baseScope: negative.scope,
      spotKind: spots.kind,
      spotShape: spots.shape,
      lineWidth: spots.lineWidth,
      ratio: framing.ratio,
      localDrawing: () => local.drawing(),
      localMissing: () => local.missing(),
    },
  };
}

/** Reports to the host that the panel is ready; the reply brings the roll and the settings. */
function requestRoll(session: Session): void {
  session.client.request("ready", { frame: session.store.get().ui.frame }).then(
    ({ roll, settings, frame }) => {
      if (frame) session.ui({ frame });
      session.events.settings?.(settings);
      session.events.roll?.(roll);
    },
    (error: unknown) => session.store.set({ failure: reasonOf(error) }),
  );
}
