/** A review as one file that needs nothing else: no network, no other file, no script but its own. */
import type { Review } from "../../review-report.ts";
import { summaryOf } from "./report-text.ts";
import { textOf } from "./text.ts";
import { escapeMarkup } from "../../recipe/plain-text.ts";
import { htmlPage, sourceHash } from "../files/html-page.ts";

/** What the page runs and how it looks, as built. */
export interface PageParts {
  readonly script: string;
  readonly style: string;
}

/**
 * The page. Whatever comes from recipes, file names and commits is data in it, never markup; and the policy allows the
 * one script and the one style sheet by their hashes.
 */
export function pageOf(review: Review, { script, style }: PageParts): string {
  const title = `Review: ${review.before.label} → ${review.after.label}`;
  const code = script.replaceAll(/<(?=\/script|!--)/gi, "\\x3c");
  const heading = escapeMarkup(title);
  return htmlPage({
    language: "en",
    title,
    directives: ["img-src data:", `style-src ${sourceHash(style)}`, `script-src ${sourceHash(code)}`],
    head: `<meta name="color-scheme" content="light dark">
<style>${style}</style>`,
    attributes: `class="report"`,
    body: `<div id="review"></div>
<noscript><h1>${heading}</h1><p>${escapeMarkup(summaryOf(review))}</p><pre>${escapeMarkup(textOf(review).join("\n"))}</pre></noscript>
<script type="application/json" id="data">${dataOf(review)}</script>
<script>${code}</script>`,
  });
}

/** JSON that cannot end its script element; pictures as data addresses. */
function dataOf(review: Review): string {
  const text = JSON.stringify(review, (_key, value: unknown) => {
    if (!isPicture(value)) return value;
    const { bytes, type, ...size } = value;
    return { ...size, type, source: `data:image/${type};base64,${Buffer.from(bytes).toString("base64")}` };
  });
  return text.replaceAll("<", "\\u003c").replaceAll("\u2028", "\\u2028").replaceAll("\u2029", "\\u2029");
}

const isPicture = (value: unknown): value is { bytes: Uint8Array; type: string; width: number; height: number } =>
  typeof value === "object" && value !== null && (value as { bytes?: unknown }).bytes instanceof Uint8Array;
