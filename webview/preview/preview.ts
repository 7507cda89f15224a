/** The panel's entry: the editor's webview loads this file. */
import { openRollPage, workerFrom } from "../roll-page.ts";
import { makePanel } from "./panel.ts";
import "./preview.css";

const { root, host } = openRollPage();
const panel = makePanel(root, { host, makeWorker: () => workerFrom(root.dataset["worker"]) });
window.addEventListener("message", ({ data }) => panel.receive(data));
