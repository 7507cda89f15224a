/** How many bytes of scans the workers may keep from the first look at a folder to the second. */
import { freemem } from "node:os";

/** Bytes at most, of all workers together, and the part of the free memory that they may have. */
const MAX_BYTES = 3 * 2 ** 30;
const PART_OF_FREE = 0.25;

/** Bytes that each of a pool's workers may keep now. */
export const bytesToKeep = (workers: number): number =>
  Math.floor(Math.min(MAX_BYTES, PART_OF_FREE * freemem()) / workers);
