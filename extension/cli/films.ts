/** `rollbook films`: lists published films. */
import { FILM_SOURCE, searchFilms } from "../engine/film/library/index.ts";
import { EXIT, type Verb } from "./verb.ts";

const KINDS = { "colour-negative": "colour", "black-and-white-negative": "black-and-white", slide: "slide" } as const;

export const films: Verb = {
  name: "films",
  summary: "list the published films that a roll can be created from",
  usage: "[WORD…]",
  details:
    "Lists the film library: published characteristic curves, dyes and sensitivities. Words search name, speed and kind.\n" +
    '"rollbook new --film-data NAME" writes a stock\'s recipe from one of them, for the camera and light of the scans.',
  example: "rollbook films 400",
  options: {},
  files: [0, 20],
  run({ files, terminal }) {
    const found = searchFilms(files.join(" "));
    for (const { name, kind, iso, year, medium } of found)
      terminal.print(
        `${name.padEnd(32)} ISO ${String(iso).padEnd(5)} ${KINDS[kind].padEnd(16)} ${medium.padEnd(6)} ${year}`,
      );
    if (found.length === 0) terminal.print(`No film of the library matches "${files.join(" ")}".`);
    terminal.print(
      `${found.length === 1 ? "1 film" : `${found.length} films`}. Data: ${FILM_SOURCE.source}; ${FILM_SOURCE.licence} licence.`,
    );
    terminal.result({
      ok: found.length > 0,
      films: found.map(({ name, kind, iso, year, medium }) => ({ name, kind, iso, year, medium })),
      ...FILM_SOURCE,
    });
    return Promise.resolve(found.length > 0 ? EXIT.good : EXIT.problems);
  },
};
