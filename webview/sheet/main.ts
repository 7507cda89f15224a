/** The sheet's entry: the editor's webview loads this file. */
import "../preview/preview.css";
import { openRollPage, workerFrom } from "../roll-page.ts";
import { makeSheet } from "./sheet.ts";
import "./sheet.css";

const { root, host } = openRollPage();
const sheet = makeSheet(root, {
  host,
  tileWorker: await workerFrom(root.dataset["tileWorker"]).catch(() => undefined),
  makeWorker: () => workerFrom(root.dataset["worker"]),
});
window.addEventListener("message", ({ data }) => sheet.receive(data));
