/** A review as one file that needs nothing else: no network, no other file, no script but its own. */
import { createHash } from "node:crypto";
import type { Review } from "../../review-report.ts";
import { summaryOf } from "./report-text.ts";
import { textOf } from "./text.ts";
import { escapeMarkup } from "../../recipe/plain-text.ts";

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
  const policy = [
    "default-src 'none'",
    "img-src data:",
    `style-src '${hashOf(style)}'`,
    `script-src '${hashOf(code)}'`,
    "base-uri 'none'",
    "form-action 'none'",
  ].join("; ");
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${escapeMarkup(title)}</title>
<style>${style}</style>
</head>
<body class="report">
<div id="review"></div>
<noscript><h1>${escapeMarkup(title)}</h1><p>${escapeMarkup(summaryOf(review))}</p><pre>${escapeMarkup(textOf(review).join("\n"))}</pre></noscript>
<script type="application/json" id="data">${dataOf(review)}</script>
<script>${code}</script>
</body>
</html>
`;
}

const hashOf = (text: string): string => `sha256-${createHash("sha256").update(text).digest("base64")}`;

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
