/** The panel's entry: the editor's webview loads this file. */
import { makePanel } from "./panel.ts";
import "./preview.css";
import { stateSaver } from "../kept-state.ts";
import type { Host } from "./session.ts";
import { useTranslationsOf } from "../translate.ts";

declare function acquireVsCodeApi(): Host;

const root = document.getElementById("panel");
if (!root) throw new Error("The page has no place for the panel.");
useTranslationsOf(root);

/** A webview may not load workers from the editor's resources, only from a blob; so the file is fetched first. */
async function makeWorker(): Promise<Worker | undefined> {
  const address = root?.dataset["worker"];
  if (!address) return undefined;
  const text = await (await fetch(address)).text();
  const blob = URL.createObjectURL(new Blob([text], { type: "text/javascript" }));
  try {
    return new Worker(blob);
  } finally {
    URL.revokeObjectURL(blob);
  }
}

const api = acquireVsCodeApi();
const keeper = stateSaver(api, root);
/** The editor restores a panel from its state alone, so the state names the recipe too. */
const host: Host = {
  postMessage: (message) => api.postMessage(message),
  getState: () => keeper.getState(),
  setState: (state) => keeper.setState({ ...(state as object), document: root.dataset["document"] }),
};
host.setState(host.getState() ?? {});
const panel = makePanel(root, { host, makeWorker });
window.addEventListener("message", ({ data }) => panel.receive(data));
