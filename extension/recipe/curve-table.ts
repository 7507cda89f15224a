/** Reads a characteristic curve from a table of text: as data sheets are digitised, or as a densitometer prints it. */

/** Density columns by name; black-and-white film has one, "density". */
export interface CurveColumns {
  readonly logH: readonly number[];
  readonly densities: Readonly<Partial<Record<"red" | "green" | "blue" | "density", readonly number[]>>>;
}

/** A table that cannot be used; the message says where. */
export class CurveTableError extends Error {
  readonly code = "curve-table";
}

const NAMES = ["red", "green", "blue", "density"] as const;

/**
 * Columns are named in the first line (logH, then red, green, blue or density), separated by commas, semicolons or tabs;
 * lines that begin with # are comments. Rows are put in order of logH.
 */
export function readCurveTable(text: string, file: string): CurveColumns {
  const lines = text
    .replace(/^\uFEFF/, "")
    .split(/\r?\n/)
    .map((line, i) => ({ line: line.trim(), number: i + 1 }))
    .filter(({ line }) => line !== "" && !line.startsWith("#"));
  if (lines.length < 3)
    throw new CurveTableError(`${file} holds no table: it needs a line of column names and at least two points.`);
  const cells = (line: string): string[] => line.split(/[,;\t]/).map((c) => c.trim().replace(/^"|"$/g, ""));
  const names = cells(lines[0].line).map((n) => n.toLowerCase());
  const at = (name: string): number => names.indexOf(name);
  const x = at("logh");
  if (x < 0)
    throw new CurveTableError(`${file}:${lines[0].number} names no column logH; its names are ${names.join(", ")}.`);
  const found = NAMES.filter((n) => at(n) >= 0);
  const colour = ["red", "green", "blue"].every((n) => at(n) >= 0);
  if (!colour && at("density") < 0)
    throw new CurveTableError(`${file}:${lines[0].number} needs the columns red, green and blue, or density alone.`);
  const rows = lines.slice(1).map(({ line, number }) => {
    const row = cells(line);
    const value = (column: number): number => {
      const v = row[column] === undefined || row[column] === "" ? NaN : Number(row[column]);
      if (!Number.isFinite(v)) throw new CurveTableError(`${file}:${number} has no number under ${names[column]}.`);
      return v;
    };
    return { logH: value(x), ...Object.fromEntries(found.map((n) => [n, value(at(n))])) } as Record<string, number>;
  });
  rows.sort((a, b) => a.logH - b.logH);
  for (let i = 1; i < rows.length; i++)
    if (rows[i].logH === rows[i - 1].logH) throw new CurveTableError(`${file} has two rows with logH ${rows[i].logH}.`);
  const column = (name: string): number[] => rows.map((r) => r[name]);
  const kept = colour ? (["red", "green", "blue"] as const) : (["density"] as const);
  return { logH: column("logH"), densities: Object.fromEntries(kept.map((n) => [n, column(n)])) };
}
