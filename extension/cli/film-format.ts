/** `--format` of the verbs that create a roll. */
import { FILM_FORMATS, parseFormat, type StatedFormat } from "../engine/film/formats.ts";
import { type OptionSpec, UsageError } from "./verb.ts";

export const FORMAT_OPTION: OptionSpec = {
  value: "FORMAT",
  help: "size of a frame: a name such as 135 or 6x6, or 60x45mm (default: the stock's)",
};

/** The format that a text names; undefined where none is given. Throws UsageError for a text that names none. */
export function readFormat(text: string | undefined): StatedFormat | undefined {
  if (text === undefined) return undefined;
  const format = parseFormat(text);
  if (format !== undefined) return format;
  const names = FILM_FORMATS.map(({ id }) => id).join(", ");
  throw new UsageError(`--format takes one of ${names}, or two sides in millimetres as in 60x45mm, not "${text}".`);
}
