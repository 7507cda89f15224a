/** Tables of shooting notes as spreadsheets and note programs write them: CSV (RFC 4180) with comma, semicolon or tab. */
import Papa from "papaparse";
import { JobError } from "../../failure.ts";
import type { NotesTable } from "../../recipe/notes/notes-to-edits.ts";
import { readPlainFile } from "../files/read-plain-file.ts";

/** More rows than any roll has frames many times over; a larger file is another file. */
const MAX_ROWS = 10_000;

/**
 * Reads a table of notes. UTF-8, UTF-16 with a byte order mark, and Windows-1252 are understood.
 * @throws JobError "unreadable" where the file cannot be read, "bad-notes" where it is no table
 */
export function readNotes(path: string): NotesTable {
  const text = decode(readPlainFile(path));
  const { data, errors } = Papa.parse<string[]>(text, { delimiter: delimiterOf(text) });
  const refuse = (why: string, remedy: string): JobError =>
    new JobError({ code: "bad-notes", message: `${path} ${why}.`, remedy, file: path });
  const quotes = errors.find(({ type }) => type === "Quotes");
  if (quotes)
    throw refuse(
      `has a quoted cell that does not end, in row ${(quotes.row ?? 0) + 1}`,
      "Close the quotes, or save the table as CSV again.",
    );
  if (text.includes("\0")) throw refuse("is not a text", "Save the table as CSV.");
  const [headings, ...rows] = data;
  if (!headings || headings.every((heading) => heading.trim() === ""))
    throw refuse("has no headings", "Its first row names the columns: frame, date, time …");
  if (rows.length > MAX_ROWS)
    throw refuse(`has ${rows.length} rows, more than ${MAX_ROWS}`, "Check that this is the file you mean.");
  return { headings, rows };
}

/** The one of the headings, which have no decimal commas. */
function delimiterOf(text: string): string {
  const headings = text.slice(0, text.search(/[\r\n]|$/));
  const count = (delimiter: string) => headings.split(delimiter).length;
  return [",", ";", "\t"].toSorted((a, b) => count(b) - count(a))[0];
}

function decode(bytes: Uint8Array): string {
  const [first, second] = bytes;
  const wide =
    first === 0xff && second === 0xfe ? "utf-16le" : first === 0xfe && second === 0xff ? "utf-16be" : undefined;
  if (wide) return new TextDecoder(wide).decode(bytes);
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder("windows-1252").decode(bytes);
  }
}
