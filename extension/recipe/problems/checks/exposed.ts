import { type Checked, fields, text } from "./check.ts";

/** The day exists in the Gregorian calendar. */
export function checkExposed({ root, report }: Checked): void {
  const date = text(fields(root.exposed)?.date);
  const match = date === undefined ? null : /^(\d{4})-(\d{2})-(\d{2})$/.exec(date);
  if (!match) return;
  const [year, month, day] = match.slice(1).map(Number) as [number, number, number];
  const last = month >= 1 && month <= 12 ? new Date(Date.UTC(year, month, 0)).getUTCDate() : 0;
  if (day >= 1 && day <= last) return;
  const why = last === 0 ? "months go from 01 to 12" : `that month has ${last} days`;
  report("impossible-date", ["exposed", "date"], `There is no day ${date}: ${why}. Dates are written year-month-day.`);
}
