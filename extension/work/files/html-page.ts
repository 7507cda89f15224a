/** The HTML page around a panel or a report, and its content security policy (CSP level 3). */
import { createHash } from "node:crypto";
import { escapeMarkup } from "../../recipe/plain-text.ts";

export interface HtmlPage {
  /** As HTML names it, such as "en". */
  readonly language: string;
  readonly title: string;
  /** What the page may use, as directives of the policy; everything else is refused. */
  readonly directives: readonly string[];
  /** Further elements of the head, and the body with its attributes: HTML, whose values are escaped by its author. */
  readonly head: string;
  readonly attributes?: string;
  readonly body: string;
}

/** The page as text. Nothing is fetched and nothing runs but what `directives` allow. */
export function htmlPage({ language, title, directives, head, attributes = "", body }: HtmlPage): string {
  const policy = ["default-src 'none'", ...directives, "base-uri 'none'", "form-action 'none'"].join("; ");
  return `<!doctype html>
<html lang="${escapeMarkup(language)}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${escapeMarkup(policy)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escapeMarkup(title)}</title>
${head}
</head>
<body${attributes && ` ${attributes}`}>
${body}
</body>
</html>
`;
}

/** A source of the policy that allows one script or style sheet by its content. */
export const sourceHash = (text: string): string => `'sha256-${createHash("sha256").update(text).digest("base64")}'`;
