/** Checks `exposed`: how and where a frame was taken. */
import type { RecipePath } from "../../path.ts";
import { type Checked, type Fields, fields, text } from "./check.ts";

/** Days exist in the Gregorian calendar, and a time of day has one. */
export function checkExposed({ root, report }: Checked): void {
  const roll = fields(root.exposed);
  if (roll) checkDate(roll, ["exposed"], report);
  for (const [id, frame] of Object.entries(fields(root.frames) ?? {})) {
    const own = fields(fields(frame)?.exposed);
    if (own) checkDate(own, ["frames", id, "exposed"], report, roll);
  }
}

function checkDate(own: Fields, path: RecipePath, report: Checked["report"], roll?: Fields): void {
  if (own.time !== undefined && own.date === undefined && roll?.date === undefined)
    report(
      "without-effect",
      [...path, "time"],
      "A time of day is written into pictures with its date only. Add date.",
      {
        part: "key",
      },
    );
  const date = text(own.date);
  const match = date === undefined ? null : /^(\d{4})-(\d{2})-(\d{2})$/.exec(date);
  if (!match) return;
  const [year, month, day] = match.slice(1).map(Number) as [number, number, number];
  const last = month >= 1 && month <= 12 ? new Date(Date.UTC(year, month, 0)).getUTCDate() : 0;
  if (day >= 1 && day <= last) return;
  const why = last === 0 ? "months go from 01 to 12" : `that month has ${last} days`;
  report("impossible-date", [...path, "date"], `There is no day ${date}: ${why}. Dates are written year-month-day.`);
}
