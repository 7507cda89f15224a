/** Text of recipes and camera files made harmless for where it is shown: it comes from somebody else. */

/**
 * For a line of text: control characters (C0, C1, escape sequences) and characters that reorder what is shown
 * (Unicode UAX #9) become blanks or go.
 */
export function plain(text: string): string {
  return (
    text
      // eslint-disable-next-line no-control-regex
      .replaceAll(/\u001b\[[0-?]*[ -/]*[@-~]/g, "")
      // eslint-disable-next-line no-control-regex
      .replaceAll(/[\u0000-\u001f\u007f-\u009f\u2028\u2029]+/g, " ")
      .replaceAll(/[\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]/g, "")
  );
}

/** For HTML and XML, between tags and in quoted attributes: nothing in it is markup. By numbers, which both know. */
export const escapeMarkup = (text: string): string => text.replaceAll(/[&<>"']/g, (sign) => `&#${sign.charCodeAt(0)};`);

/** For Markdown, as a line of plain text: nothing in it is markup, a link, a picture, a mention or a table's end. */
export function markdown(text: string): string {
  return plain(text)
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll(
      /[\\`*_{}[\]#|~@!]|:(?=\/\/|\w+:)|(?<=[a-z]):(?=\S)|\.(?<=\bwww\.)/gi,
      (sign) => `&#${sign.charCodeAt(0)};`,
    );
}

/** For Markdown, as code: the text as it is, in a fence of backticks longer than any in it (CommonMark 0.31, 6.1). */
export function markdownCode(text: string): string {
  const inner = plain(text);
  const longest = Math.max(0, ...[...inner.matchAll(/`+/g)].map(([run]) => run.length));
  const fence = "`".repeat(longest + 1);
  return longest > 0 ? `${fence} ${inner} ${fence}` : `${fence}${inner}${fence}`;
}

/** JSON whose texts hold no character that a terminal or an editor takes as an order. */
export function plainJson(value: unknown): string {
  return JSON.stringify(value, null, 2).replaceAll(
    /[\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]/g,
    (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, "0")}`,
  );
}
