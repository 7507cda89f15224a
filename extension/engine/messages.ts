/** Sentences that are put together in one room and said in another, in the reader's language. */

/** Puts a message into the reader's language; {0}, {1} … stand for the arguments. */
export type Say = (message: string, ...args: (string | number)[]) => string;

/** English, as the messages are written. */
export const english: Say = (message, ...args) => message.replaceAll(/\{(\d)\}/g, (_, i) => String(args[Number(i)]));

/** A text with places {0}, {1} …, and what goes there. Plain data: it crosses processes, and is kept on disk. */
export interface Sentence {
  readonly text: string;
  readonly values: readonly (string | number | Sentence)[];
}

/** @param text a literal: extension/editor/l10n/extract.mjs collects it for translators */
export const said = (text: string, ...values: Sentence["values"]): Sentence => ({ text, values });

export const inWords = ({ text, values }: Sentence, say: Say): string =>
  say(text, ...values.map((value) => (typeof value === "object" ? inWords(value, say) : value)));
