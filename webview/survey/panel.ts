/** The report of a survey beside the text: it comes as HTML from the host, and its places lead into the recipe. */
import type { SurveyEvents, SurveyPageEvents } from "../../extension/messages.ts";
import { createEmitter, dispatchEvent } from "../../extension/rpc.ts";
import { el } from "../dom.ts";
import { knownParts } from "./known-parts.ts";
import "./survey.css";

/** What is kept with the page, so that it comes back as it was. */
interface Kept {
  readonly document?: string;
  readonly top?: number;
}

interface Editor {
  postMessage(message: unknown): void;
  getState(): Kept | undefined;
  setState(state: Kept): void;
}
declare function acquireVsCodeApi(): Editor;

const editor = acquireVsCodeApi();
const emit = createEmitter<SurveyPageEvents>((message) => editor.postMessage(message));
const { document: recipe } = document.body.dataset;
const title = document.querySelector("h1") as HTMLElement;
const notices = document.querySelector("#notices") as HTMLElement;
const report = document.querySelector("main") as HTMLElement;
const saveButton = document.querySelector("[data-do=save]") as HTMLButtonElement;
/** Where the page was scrolled to before it was reloaded; used once. */
let top = editor.getState()?.top;

editor.setState({ document: recipe, top });

addEventListener("message", ({ data }) =>
  dispatchEvent<SurveyEvents>(data, { show, goTo: ({ frame }) => goTo(frame) }),
);

addEventListener("scroll", () => editor.setState({ document: recipe, top: scrollY }), { passive: true });

addEventListener("click", ({ target }) => {
  const button = target instanceof Element ? target.closest("button") : undefined;
  if (!button) return;
  const { do: action, frame, finding } = button.dataset;
  if (action === "again" || action === "save") emit(action, null);
  else
    emit("jump", {
      ...(frame === undefined ? {} : { frame }),
      ...(finding === undefined ? {} : { finding: Number(finding) }),
    });
});

/** Up and down go from place to place, as in a list; Tab and Enter work as everywhere. */
addEventListener("keydown", (event) => {
  const step = event.key === "ArrowDown" ? 1 : event.key === "ArrowUp" ? -1 : 0;
  const places = [...report.querySelectorAll<HTMLElement>(".place")];
  const at = places.indexOf(document.activeElement as HTMLElement);
  if (step === 0 || at < 0 || event.altKey || event.ctrlKey || event.metaKey) return;
  event.preventDefault();
  places[Math.min(places.length - 1, Math.max(0, at + step))]?.focus();
});

function show({ title: name, body, notices: sentences, surveyed }: SurveyEvents["show"]): void {
  const focused = report.contains(document.activeElement) ? (document.activeElement as HTMLElement) : undefined;
  title.textContent = name;
  notices.replaceChildren(...sentences.map((sentence) => el("p", {}, sentence)));
  report.replaceChildren(...knownParts(body));
  saveButton.hidden = !surveyed;
  if (focused) placeLike(focused)?.focus({ preventScroll: true });
  if (top !== undefined) scrollTo(0, top);
  top = undefined;
}

/** The same place in the report that has come, so that the keyboard stays where it was. */
function placeLike({ textContent }: HTMLElement): HTMLElement | undefined {
  return [...report.querySelectorAll<HTMLElement>(".place")].find((one) => one.textContent === textContent);
}

function goTo(frame: string): void {
  const found = [...report.querySelectorAll<HTMLElement>("[data-frame]")].find((one) => one.dataset["frame"] === frame);
  found?.scrollIntoView({ block: "start" });
  found?.querySelector<HTMLElement>(".place")?.focus({ preventScroll: true });
}

emit("ready", null);
