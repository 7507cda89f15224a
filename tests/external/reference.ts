/** Reads the published tables kept in tests/reference (its README names source and licence of each). */
import { existsSync, readFileSync } from "node:fs";

/** One line of a table by column name. */
export type Row = Readonly<Record<string, string>>;

/** Lines of a CSV file in tests/reference; lines that begin with # are comments, the first other line names the columns. */
export function referenceTable(file: string): Row[] {
  // Benches are bundled into dist/.
  const folder = ["../reference/", "../tests/reference/"].find((to) => existsSync(new URL(to, import.meta.url)));
  const text = readFileSync(new URL(`${folder}${file}`, import.meta.url), "utf8");
  const lines = text.split(/\r?\n/).filter((line) => line !== "" && !line.startsWith("#"));
  const names = lines[0].split(",");
  const rows = lines.slice(1).map((line) => {
    const cells = line.split(",");
    return Object.fromEntries(names.map((name, i) => [name, cells[i] ?? ""]));
  });
  if (rows.length === 0) throw new Error(`tests/reference/${file} holds no rows.`);
  return rows;
}

/** Numbers of a row's columns. */
export function numbers(row: Row, ...columns: string[]): number[] {
  return columns.map((column) => Number(row[column]));
}

/** Three numbers of a row's columns. */
export function triple(row: Row, a: string, b: string, c: string): [number, number, number] {
  return [Number(row[a]), Number(row[b]), Number(row[c])];
}

/** Points of a curve in film_curves.csv, ascending in x, a point per x. */
export function filmPoints(film: string, quantity: string, channel: string): { x: number[]; y: number[] } {
  const rows = referenceTable("films/film_curves.csv").filter(
    (row) => row.film === film && row.quantity === quantity && row.channel === channel,
  );
  if (rows.length === 0) throw new Error(`film_curves.csv has no ${quantity} of ${film}, channel "${channel}".`);
  const points = new Map(rows.map((row) => [Number(row.x), Number(row.y)]));
  const sorted = [...points].sort((a, b) => a[0] - b[0]);
  return { x: sorted.map((p) => p[0]), y: sorted.map((p) => p[1]) };
}

/** Straight-line interpolation, level beyond the ends. */
export function interpolated(x: readonly number[], y: readonly number[], at: number): number {
  if (at <= x[0]) return y[0];
  const i = x.findIndex((v) => v >= at);
  if (i < 0) return y[y.length - 1];
  const part = (at - x[i - 1]) / (x[i] - x[i - 1]);
  return y[i - 1] + part * (y[i] - y[i - 1]);
}
