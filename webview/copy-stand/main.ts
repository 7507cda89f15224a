/** The copy stand's page: the newest scan's positive and verdict, large; the strip of what is done; the focus aid. */
import type { StandEvents, StandPageEvents, StandRequests, StandScan, StandState } from "../../extension/messages.ts";
import { createEmitter, createRpcClient, dispatchEvent } from "../../extension/rpc.ts";
import { el } from "../dom.ts";
import { t, useTranslationsOf } from "../translate.ts";
import "./copy-stand.css";
import { makeFocusAid } from "./focus-aid.ts";
import { markOf, wordOf } from "./marks.ts";
import { makePicture } from "./picture.ts";
import { makeSound, type Sound } from "./sound.ts";
import { makeStrip } from "./strip.ts";

interface Editor {
  postMessage(message: unknown): void;
  setState(state: unknown): void;
}
declare function acquireVsCodeApi(): Editor;

const editor = acquireVsCodeApi();
const root = document.querySelector("#stand") as HTMLElement;
useTranslationsOf(root);
editor.setState({ places: JSON.parse(root.dataset["places"] ?? "{}") as unknown });
const post = (message: unknown): void => editor.postMessage(message);
const emit = createEmitter<StandPageEvents>(post);
const client = createRpcClient<StandRequests>(post, { limit: 30_000 });

let state: StandState | undefined;
let selected: string | undefined;
/** The scan that is being measured. */
let arriving: string | undefined;
let follows = true;
let compares = false;
let sound: Sound | undefined;
/** Raised with every selection: an answer for an older one is dropped. */
let turn = 0;

const toggle = (label: string, onChange: (on: boolean) => void, on = false): HTMLButtonElement => {
  const button = el("button", { type: "button", "aria-pressed": String(on) }, label);
  button.addEventListener("click", () => {
    const next = button.getAttribute("aria-pressed") !== "true";
    button.setAttribute("aria-pressed", String(next));
    onChange(next);
  });
  return button;
};

const verdict = el("div", { class: "verdict", role: "status", "aria-live": "assertive" });
const details = el("ol", { class: "details", "aria-label": t("Reasons") });
const points = el("div", { class: "points", role: "status" });
const totals = el("p", { class: "totals" });
const picture = makePicture();
const strip = makeStrip((scan) => {
  setFollows(scan === state?.entries.at(-1)?.scan);
  void select(scan);
});
const focus = makeFocusAid((on) => {
  compares = on;
  void showCrops();
});
const followButton = toggle(
  t("Follow newest"),
  (on) => {
    follows = on;
    if (on) void select(newest());
  },
  true,
);
const testButton = toggle(t("Test shots"), (on) => emit("testing", { on }));
testButton.title = t("Scans are judged but add no frames. Use it to set focus, alignment and aperture.");
const soundButton = toggle(t("Sound"), (on) => (sound = on ? (sound ?? makeSound()) : undefined));
const revealButton = el("button", { type: "button" }, t("Show in recipe"));
revealButton.addEventListener("click", () => {
  const entry = state?.entries.find(({ scan }) => scan === selected);
  emit("reveal", entry?.frame === undefined ? {} : { frame: entry.frame });
});

root.append(
  verdict,
  el("main", {}, el("div", { class: "view" }, picture.element, details), el("aside", {}, focus.element, points)),
  strip.element,
  el("footer", {}, totals, el("div", { class: "actions" }, followButton, testButton, soundButton, revealButton)),
);

const newest = (): string | undefined => state?.entries.at(-1)?.scan;

function setFollows(on: boolean): void {
  follows = on;
  followButton.setAttribute("aria-pressed", String(on));
}

function showVerdict(scan: StandScan | undefined): void {
  verdict.className = `verdict ${arriving ? "waiting" : (scan?.verdict ?? "waiting")}`;
  if (arriving || !scan) {
    const text = arriving
      ? t("{0} is being judged …", arriving)
      : state?.present === false
        ? t("The folder {0} is missing.", state.folder)
        : t("Waiting for scans in {0}.", state?.folder ?? "");
    return verdict.replaceChildren(el("span", { class: "word" }, text));
  }
  const [first] = scan.reasons;
  const what =
    scan.frame === undefined
      ? { blank: t("blank"), leader: t("leader"), picture: "", unreadable: "" }[scan.kind]
      : t("frame {0}", scan.frame);
  verdict.replaceChildren(
    markOf(scan.verdict),
    el("span", { class: "word" }, wordOf(scan.verdict)),
    el(
      "span",
      { class: "why" },
      el("span", { class: "which" }, `${what} ${scan.scan}`.trim()),
      first && el("span", { class: "reason" }, first.message),
      first && el("span", { class: "remedy" }, first.remedy),
      !first && scan.role !== "" && el("span", { class: "reason" }, scan.role),
    ),
  );
}

function showDetails(scan: StandScan | undefined): void {
  const others = scan?.reasons.slice(1) ?? [];
  details.replaceChildren(
    ...others.map((reason) =>
      el(
        "li",
        { class: reason.verdict },
        el("strong", {}, wordOf(reason.verdict)),
        ` ${reason.message} `,
        el("span", { class: "remedy" }, reason.remedy),
      ),
    ),
    ...(scan && scan.reasons.length > 0 && scan.role !== "" ? [el("li", {}, scan.role)] : []),
  );
}

async function select(scan: string | undefined): Promise<void> {
  selected = scan;
  const mine = ++turn;
  strip.show(state?.entries ?? [], selected);
  if (scan === undefined) {
    showVerdict(undefined);
    return picture.show("", undefined);
  }
  const [about, image] = await Promise.all([
    client.request("scan", { scan }).catch(() => undefined),
    client.request("positive", { scan }).catch(() => ({ bytes: undefined })),
  ]);
  if (mine !== turn) return;
  if (arriving !== undefined && follows) return;
  showVerdict(about);
  showDetails(about);
  picture.show(scan, image.bytes);
  picture.mark(about);
  focus.show(about, state?.trend ?? []);
  await showCrops();
}

async function showCrops(): Promise<void> {
  const mine = turn;
  if (!compares || selected === undefined) return;
  const crops = await client.request("crops", { scan: selected }).catch(() => undefined);
  if (mine === turn) focus.showCrops(crops);
}

async function showPositive(scan: string): Promise<void> {
  if (!follows) return;
  const mine = ++turn;
  const { bytes } = await client.request("positive", { scan });
  if (mine === turn) picture.show(scan, bytes);
}

addEventListener("message", ({ data }: MessageEvent<unknown>) => {
  client.receive(data);
  dispatchEvent<StandEvents>(data, {
    state(next) {
      state = next;
      testButton.setAttribute("aria-pressed", String(next.testing));
      revealButton.hidden = next.recipe === undefined;
      const { frames, good, look, again } = next.tally;
      totals.textContent = t("{0} frames: {1} good, {2} look, {3} again", frames, good, look, again);
      points.replaceChildren(...next.points.map((sentence) => el("p", {}, sentence)));
      const still = next.entries.some(({ scan }) => scan === selected);
      if (arriving === undefined) void select(follows || !still ? newest() : selected);
      else strip.show(next.entries, selected);
    },
    arrived({ scan }) {
      arriving = scan;
      if (follows) {
        showVerdict(undefined);
        details.replaceChildren();
      }
    },
    positive: ({ scan }) => void showPositive(scan),
    verdict({ scan, verdict: judged }) {
      if (arriving === scan) arriving = undefined;
      sound?.play(judged);
      if (follows) void select(newest());
    },
  });
});

focus.show(undefined, []);
emit("ready", null);
