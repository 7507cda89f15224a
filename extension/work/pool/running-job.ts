/** A job of the pool while it is waited for: whether it has started, and when it is overdue. */

/**
 * Milliseconds beyond a job's limit, or after it was cancelled, after which its whole process is ended: the process
 * itself ends the job's worker earlier, unless it is stopped or stuck. Never longer than the limit itself.
 */
const GRACE_PERIOD = 10_000;

export class RunningJob {
  /** Milliseconds that it may take from its start. */
  readonly limit: number;
  readonly #onOverdue: () => void;
  #timer: NodeJS.Timeout | undefined;
  isStarted = false;
  isTimedOut = false;

  /** `onOverdue` is called when the job is not over in time. */
  constructor(limit: number, onOverdue: () => void) {
    this.limit = limit;
    this.#onOverdue = onOverdue;
  }

  /** From now on the job's time runs, unless it was cancelled already. */
  start(isCancelled: boolean): void {
    this.isStarted = true;
    if (isCancelled) return;
    this.#watch(this.limit + Math.min(this.limit, GRACE_PERIOD), () => (this.isTimedOut = true));
  }

  /** The job was cancelled, and has a short time left to end. */
  readonly endSoon = (): void => this.#watch(GRACE_PERIOD);

  end(): void {
    clearTimeout(this.#timer);
  }

  #watch(delay: number, before?: () => void): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => {
      before?.();
      this.#onOverdue();
    }, delay);
  }
}
