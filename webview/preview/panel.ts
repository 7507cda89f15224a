/** Puts the panel together. */
import type { PreviewRequests } from "../../extension/messages.ts";
import { createRpcClient, dispatchEvent } from "../../extension/rpc.ts";
import { el } from "../dom.ts";
import { listenToKeys } from "./keys.ts";
import { makeCurve } from "./sections/curve.ts";
import { makeDetail } from "./picture/detail.ts";
import { makeFraming } from "./sections/framing.ts";
import { makeHistograms } from "./sections/histograms.ts";
import { BASE_PATH, makeNegative } from "./sections/negative.ts";
import { makeNotices } from "./notices.ts";
import { makeOverlay } from "./picture/overlay.ts";
import { makePicture, type Picture } from "./picture/picture.ts";
import type { ToolChoices } from "./picture/tool.ts";
import { LineDrawing } from "./picture/line-drawing.ts";
import { makePointing } from "./picture/pointing.ts";
import { makePrint } from "./sections/print.ts";
import { makeProposals } from "./sections/proposals.ts";
import { makeReadings } from "./sections/readings.ts";
import { makeSpots } from "./sections/spots.ts";
import { makeStrip } from "./strip.ts";
import { makeToolbar } from "./toolbar.ts";
import { makeWipe } from "./picture/wipe.ts";
import { makeCpuSurface } from "../render/cpu-surface.ts";
import { isSoftwareGl, makeGpuSurface } from "../render/gpu-surface.ts";
import type { Surface } from "../render/surface.ts";
import { type Host, makeSession, type Session } from "./session.ts";
import { CONTROLS } from "../state/controls.ts";
import { CURVE_PATH } from "./sections/curve-values.ts";
import { t } from "../translate.ts";
import { reasonOf } from "../reason.ts";

/** Milliseconds until a request to the host fails by itself, where it states no limit of its own. */
const REPLY_LIMIT = 30_000;

export interface Surroundings {
  readonly host: Host;
  /** Makes the worker of the CPU path; none where workers are refused. */
  readonly makeWorker: () => Promise<Worker | undefined>;
  /** Whether WebGL is used: where it is real, never, or even where it is only imitated. */
  readonly gpu?: "real" | "never" | "always";
}

export interface Panel {
  readonly session: Session;
  readonly picture: Picture;
  surface(): Surface;
  receive(message: unknown): void;
}

export function makePanel(root: HTMLElement, { host, makeWorker, gpu = "real" }: Surroundings): Panel {
  const client = createRpcClient<PreviewRequests>((message) => host.postMessage(message), { limit: REPLY_LIMIT });
  const session = makeSession(host, client);
  const stage = el("div", { class: "stage", tabindex: "0", role: "img", "aria-label": t("Picture") });
  let canvas = el("canvas", { class: "picture" });
  const wide = matchMedia("(color-gamut: p3)").matches;
  let worker: Worker | undefined;
  const wanted = gpu === "always" || (gpu === "real" && !isSoftwareGl());
  let surface = (wanted && makeGpuSurface(canvas, wide)) || makeCpuSurface(canvas);
  stage.append(canvas);
  const picture = makePicture(session, canvas, surface);

  /** The CPU path starts in the page, and moves to the worker as soon as there is one. */
  async function useCpu(): Promise<void> {
    worker ??= await makeWorker().catch(() => undefined);
    // A canvas keeps the kind of context that it first gave: another kind needs another canvas.
    const fresh = el("canvas", { class: "picture" });
    canvas.replaceWith(fresh);
    canvas = fresh;
    surface.dispose();
    surface = makeCpuSurface(fresh, () => worker);
    picture.setSurface(surface, fresh);
  }
  if (surface.kind === "cpu") void useCpu();
  else
    canvas.addEventListener("webglcontextlost", (event) => {
      event.preventDefault();
      if (surface.kind !== "gpu") return;
      session.announce(t("The graphics processor was lost. The picture is drawn on the main processor instead."));
      void useCpu();
    });

  const overlay = makeOverlay(session, picture);
  const wipe = makeWipe(session, stage);
  const negative = makeNegative(session);
  const framing = makeFraming(session);
  const spots = makeSpots(session);
  const print = makePrint(session);
  const { notices, live } = makeNotices(session);
  stage.append(overlay.element, wipe);
  const choices: ToolChoices = {
    baseScope: negative.scope,
    spotKind: spots.kind,
    spotShape: spots.shape,
    lineWidth: spots.lineWidth,
    ratio: framing.ratio,
  };
  makePointing({ session, picture, overlay, choices, lines: new LineDrawing(session, overlay, choices) }, stage);
  makeDetail(session, picture);
  listenToKeys(session, picture);
  root.append(
    makeToolbar(session, picture),
    el(
      "main",
      {},
      el("div", { class: "viewing" }, stage, notices),
      el(
        "aside",
        { class: "side", "aria-label": t("Values") },
        print.scope,
        el(
          "div",
          { class: "values" },
          print.exposure,
          print.tone,
          makeCurve(session),
          negative.element,
          framing.element,
          spots.element,
          makeProposals(session),
          makeReadings(session),
          makeHistograms(session),
        ),
      ),
    ),
    makeStrip(session),
    live,
  );
  session.store.on(({ ui, settings }) => {
    stage.dataset["tool"] = ui.tool;
    const frame = session.frame();
    stage.setAttribute("aria-label", frame ? t("Picture of frame {0}", frame.id) : t("Picture"));
    root.style.setProperty("--surround", `lab(${settings.surround}% 0 0)`);
  });
  session.wantCascades([...CONTROLS.map((c) => c.path), CURVE_PATH, BASE_PATH]);

  const start = (): void => {
    client.request("ready", { frame: session.store.get().ui.frame }).then(
      ({ roll, settings, frame }) => {
        if (frame) session.ui({ frame });
        session.events.settings?.(settings);
        session.events.roll?.(roll);
      },
      (error: unknown) => session.store.set({ failure: reasonOf(error) }),
    );
  };
  queueMicrotask(start);

  return {
    session,
    picture,
    surface: () => surface,
    receive(message) {
      if (!dispatchEvent(message, session.events)) client.receive(message);
    },
  };
}
