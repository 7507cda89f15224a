/** A report on its own: its data lies in the page. */
import "./review.css";
import { openReview } from "./app.ts";
import { Session } from "./session.ts";
import type { ShownReview } from "./shown.ts";

const root = document.getElementById("review");
const data = document.getElementById("data")?.textContent;
if (root && data) openReview(new Session(JSON.parse(data) as ShownReview), root);
