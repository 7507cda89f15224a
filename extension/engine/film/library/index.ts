/** Published films by name: list, search and lookup. The data are made by make.mjs from tests/reference. */
import { FILMS } from "./films.ts";
import type { PublishedFilm } from "./types.ts";

/** Where the data come from, as a recipe's comment and `--json` state it. */
export const FILM_SOURCE = {
  source: "spectral_film_lut 02ecafd7, digitised from the makers' data sheets",
  licence: "MIT",
  author: "Jan Lohse",
} as const;

const plain = (text: string): string =>
  text
    .toLowerCase()
    .replace(/[^a-z0-9@]+/g, " ")
    .trim();

/** All films, by name. */
export const publishedFilms: readonly PublishedFilm[] = FILMS;

/** The film of exactly this name; case, spaces and punctuation do not count. */
export function publishedFilm(name: string): PublishedFilm | undefined {
  const wanted = plain(name);
  return FILMS.find((film) => plain(film.name) === wanted);
}

/** Films whose name, speed or kind has every word of `query`, in the order of the list; all films for no words. */
export function searchFilms(query: string): readonly PublishedFilm[] {
  const words = plain(query).split(" ").filter(Boolean);
  return FILMS.filter((film) => {
    const text = ` ${plain(`${film.name} ISO ${film.iso} ${film.kind} ${film.medium}`)}`;
    // A word may begin anywhere in a name; a number must be a whole number, so that 100 does not find 2100.
    return words.every((word) => text.includes(/^\d+$/.test(word) ? ` ${word}` : word));
  });
}
