/** The names of films by their edge code. The table is a data file of its own licence, read when it is first asked for. */
import { existsSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

/** A film that carries a code. */
export interface CodedFilm {
  readonly name: string;
  /** Year from which it was sold, where the table knows it. */
  readonly year?: number;
}

const FILE = "film-names.csv";

let table: Promise<ReadonlyMap<string, readonly CodedFilm[]>> | undefined;

/** Films that carry an edge code ("36-2"); several films may share one, and many codes are in no table. */
export async function filmsOfCode(code: string): Promise<readonly CodedFilm[]> {
  table ??= readTable();
  return (await table).get(code) ?? [];
}

async function readTable(): Promise<ReadonlyMap<string, readonly CodedFilm[]>> {
  const beside = dirname(fileURLToPath(import.meta.url));
  const folder = [join(beside, "edge-codes"), beside].find((path) => existsSync(join(path, FILE)));
  const films = new Map<string, CodedFilm[]>();
  // A program without the table still reads codes and frame numbers.
  if (folder === undefined) return films;
  const lines = (await readFile(join(folder, FILE), "utf8")).split("\n").filter((l) => l !== "" && !l.startsWith("#"));
  for (const line of lines.slice(1)) {
    const [code, name, year] = line.split(";");
    const known = films.get(code) ?? [];
    films.set(code, [...known, { name, ...(year ? { year: Number(year) } : {}) }]);
  }
  return films;
}
