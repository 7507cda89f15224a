/** Colours of what is printed: severities stand out, codes stand back. The text itself never depends on them. */
import picocolors from "picocolors";

export type Paint = (line: string) => string;

interface Environment {
  readonly NO_COLOR?: string;
  readonly FORCE_COLOR?: string;
  readonly TERM?: string;
}

/**
 * Colours lines for a stream: on a terminal, unless NO_COLOR is set to anything (no-color.org) or the terminal is dumb.
 * FORCE_COLOR other than 0 colours what is no terminal too; NO_COLOR is the stronger.
 */
export function paintFor(isTerminal: boolean, environment: Environment): Paint {
  const { NO_COLOR, FORCE_COLOR, TERM } = environment;
  const forced = FORCE_COLOR !== undefined && FORCE_COLOR !== "" && FORCE_COLOR !== "0";
  if (NO_COLOR || !(forced || (isTerminal && TERM !== "dumb"))) return (line) => line;
  const { red, yellow, cyan, dim, bold } = picocolors.createColors(true);
  const tones: Record<string, (text: string) => string> = { error: red, warning: yellow, info: cyan };
  return (line) => {
    const match = /^(\S+:\d+:\d+ )?(error|warning|info)\b(?:(.*)( \[[a-z0-9-]+\]))?(.*)$/.exec(line);
    if (!match) return line;
    const [, place, severity, message = "", code, rest] = match;
    return `${place ? bold(place) : ""}${tones[severity](severity)}${message}${code ? dim(code) : ""}${rest}`;
  };
}
