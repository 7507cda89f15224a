/** A sound for each verdict: one high tone, two middle ones, three low ones. Number and height both tell them apart. */
import type { StandEntry } from "../../extension/messages.ts";

const TONES: Readonly<Record<StandEntry["verdict"], { readonly hertz: number; readonly times: number }>> = {
  good: { hertz: 880, times: 1 },
  look: { hertz: 587, times: 2 },
  again: { hertz: 330, times: 3 },
};
/** Seconds of a tone and of the pause after it. */
const [TONE, PAUSE] = [0.14, 0.1];

export interface Sound {
  play(verdict: StandEntry["verdict"]): void;
}

/** To be called by a click or a key: pages may not sound without one. */
export function makeSound(): Sound {
  const audio = new AudioContext();
  return {
    play(verdict) {
      const { hertz, times } = TONES[verdict];
      for (let k = 0; k < times; k++) {
        const start = audio.currentTime + k * (TONE + PAUSE);
        const tone = audio.createOscillator();
        const level = audio.createGain();
        tone.frequency.value = hertz;
        level.gain.setValueAtTime(0, start);
        level.gain.linearRampToValueAtTime(0.25, start + 0.01);
        level.gain.linearRampToValueAtTime(0, start + TONE);
        tone.connect(level).connect(audio.destination);
        tone.start(start);
        tone.stop(start + TONE);
      }
    },
  };
}
