/** Keeps the screen from going dark while something is being recorded. */
import { useEffect } from "preact/hooks";
import { asleep } from "../state";

/** Held while the screen it is called from is open, seen and unlocked; where a phone cannot, nothing is said. */
export function useWakeLock(): void {
  const away = asleep.value;
  useEffect(() => {
    if (away) return;
    let held: WakeLockSentinel | undefined;
    let open = true;
    const take = async () => {
      if (document.visibilityState !== "visible") return;
      const taken = await navigator.wakeLock?.request("screen").catch(() => undefined);
      if (!open) return void taken?.release();
      void held?.release();
      held = taken;
    };
    const again = () => void take();
    document.addEventListener("visibilitychange", again);
    again();
    return () => {
      open = false;
      document.removeEventListener("visibilitychange", again);
      void held?.release();
    };
  }, [away]);
}
