/** What is felt and heard beside what is seen: never the only sign of anything. */
import { settings } from "../settings";

type Tidings = "found" | "good" | "bad";

const BUZZ: Record<Tidings, number | number[]> = { found: 60, good: 20, bad: [90, 60, 90] };
/** Notes in hertz, each an eighth of a second. */
const NOTES: Record<Tidings, number[]> = { found: [880], good: [660], bad: [220, 165] };
const NOTE = 0.125;

let speaker: AudioContext | null = null;

/** Vibrate and sound as the settings allow; a phone that can do neither does nothing. */
export function tell(tidings: Tidings): void {
  if (settings.value.vibration) navigator.vibrate?.(BUZZ[tidings]);
  if (settings.value.sound && "AudioContext" in globalThis) sound(NOTES[tidings]);
}

function sound(notes: number[]): void {
  speaker ??= new AudioContext();
  const out = speaker;
  void out.resume().catch(() => {});
  for (const [place, hertz] of notes.entries()) {
    const [tone, gain] = [out.createOscillator(), out.createGain()];
    const begin = out.currentTime + place * NOTE;
    tone.frequency.value = hertz;
    gain.gain.setValueAtTime(0.2, begin);
    gain.gain.exponentialRampToValueAtTime(0.001, begin + NOTE);
    tone.connect(gain).connect(out.destination);
    tone.start(begin);
    tone.stop(begin + NOTE);
  }
}
