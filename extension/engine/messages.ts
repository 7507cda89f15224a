/** Sentences that are put together in one room and said in another, in the reader's language. */

/** Puts a message into the reader's language; {0}, {1} … stand for the arguments. */
export type Translate = (message: string, ...args: (string | number)[]) => string;

/** English, as the messages are written. */
export const english: Translate = (message, ...args) =>
  message.replaceAll(/\{(\d)\}/g, (_, i) => String(args[Number(i)]));

/** A text with places {0}, {1} …, and what goes there. Plain data: it crosses processes, and is kept on disk. */
export interface Message {
  readonly text: string;
  readonly values: readonly (string | number | Message)[];
}

/** @param text a literal: extension/editor/l10n/extract.mjs collects it for translators */
export const msg = (text: string, ...values: Message["values"]): Message => ({ text, values });

export const formatMessage = ({ text, values }: Message, t: Translate): string =>
  t(text, ...values.map((value) => (typeof value === "object" ? formatMessage(value, t) : value)));
