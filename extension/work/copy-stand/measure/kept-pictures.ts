/** What the worker and the session agree on about the pictures that one writes and the other reads. */

/** Key of the grain's crops beside a positive's. */
export const cropsKey = (positiveKey: string): string => `${positiveKey}-crops`;

/** Progress that is reported when the positive is on disk. */
export const POSITIVE_WRITTEN = 0.5;
