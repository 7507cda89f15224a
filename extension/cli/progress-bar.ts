/** The bar of long work on a terminal: how far, how fast, and how long still. */
import { SingleBar } from "cli-progress";
import type { Writable } from "node:stream";

export interface ProgressBar {
  /** @param done of `total` parts, fractions included */
  show(done: number, total: number, label: string): void;
  /** Takes the bar away; the next `show` draws it again, and goes on measuring. */
  clear(): void;
}

const WIDTH = 24;
/** Milliseconds of work, and parts done, from which on a rate says something. */
const MIN_MILLISECONDS = 1000;
const MIN_DONE = 2;

/** @param now milliseconds of a clock */
export function progressBar(
  stream: Writable & { readonly columns?: number },
  now = () => performance.now(),
): ProgressBar {
  let bar: SingleBar | undefined;
  let started: number | undefined;
  return {
    show(done, total, label) {
      if (total === 0) return;
      started ??= now();
      const text = { text: lineOf(done, total, now() - started, label).slice(0, (stream.columns ?? 80) - WIDTH - 2) };
      if (bar) bar.update(done, text);
      else {
        bar = new SingleBar({
          stream,
          format: "{bar} {text}",
          barsize: WIDTH,
          barCompleteChar: "█",
          barIncompleteChar: "░",
          clearOnComplete: true,
          // Terminal modes stay as they are: a command that is killed leaves nothing to be put right.
          hideCursor: false,
          linewrap: true,
          gracefulExit: false,
          noTTYOutput: false,
        });
        bar.start(total, done, text);
      }
    },
    clear() {
      bar?.stop();
      bar = undefined;
    },
  };
}

/** " 42 %  frame 07  1.3/s  0:21 left". Rate and time left are absent until there is something to reckon them from. */
export function lineOf(done: number, total: number, milliseconds: number, label: string): string {
  const percent = `${String(Math.round(100 * Math.min(1, done / total))).padStart(3)} %`;
  if (done < MIN_DONE || milliseconds < MIN_MILLISECONDS) return `${percent}  ${label}`;
  const rate = done / (milliseconds / 1000);
  const speed = rate >= 1 ? `${rate.toFixed(1)}/s` : `${(1 / rate).toFixed(1)} s each`;
  const left = Math.max(0, Math.round((total - done) / rate));
  return `${percent}  ${label}  ${speed}  ${clock(left)} left`;
}

function clock(seconds: number): string {
  const [hours, minutes] = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60];
  const two = (value: number): string => String(value).padStart(2, "0");
  return hours > 0 ? `${hours}:${two(minutes)}:${two(seconds % 60)}` : `${minutes}:${two(seconds % 60)}`;
}
