/** The finder: what the camera sees in a frame, its light and its lenses, and what to do where nothing is found. */
import type { RefObject } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";
import { t } from "../language";
import { Notice } from "../parts/frame";
import { useLoaded } from "../parts/use";
import { asleep } from "../state";
import { backLenses, chooseLens, chosenLens, hasTorch, lensOf, type Trouble, tune } from "./camera";
import { watch } from "./watching";

type Says = "finder-hold" | "finder-several" | "finder-nothing";

interface FinderProps {
  onText: (text: string) => void;
  /** The picture is there. */
  onLive?: () => void;
}

/** Tells each text that comes into sight; the same again only after it was out of sight for a moment. */
export function Finder({ onText, onLive }: FinderProps) {
  const video = useRef<HTMLVideoElement>(null);
  const camera = useCamera(video, onText);
  if (camera.trouble) {
    return (
      <div class="no-finder">
        <Notice kind="care">
          {t(`finder-${camera.trouble}`)}
          {camera.trouble !== "none" && (
            <button type="button" class="button" onClick={camera.again}>
              {t("finder-again")}
            </button>
          )}
        </Notice>
      </div>
    );
  }
  return (
    <div class="finder-part">
      <div class="finder">
        <video ref={video} playsInline muted autoplay onPlaying={onLive} aria-label={t("finder-picture")} />
      </div>
      <Controls camera={camera} />
      <p class={camera.says === "finder-hold" ? "finder-says" : "finder-says care"} role="status">
        {t(camera.says)}
      </p>
    </div>
  );
}

interface Camera {
  readonly trouble: Trouble | "";
  readonly says: Says;
  readonly stream: MediaStream | null;
  /** Another lens from now on. */
  useLens(lens: string): void;
  again(): void;
}

/** The camera while the page is in sight: let go when it is hidden, opened again when it is back. */
function useCamera(video: RefObject<HTMLVideoElement | null>, onText: (text: string) => void): Camera {
  const [trouble, setTrouble] = useState<Trouble | "">("");
  const [says, setSays] = useState<Says>("finder-hold");
  const [stream, setStream] = useState<MediaStream | null>(null);
  const [picked, setPicked] = useState<string | null>(null);
  const [turn, setTurn] = useState(0);
  const kept = useLoaded(chosenLens, []);
  // Who comes back may have allowed the camera meanwhile: it is asked for again.
  const seen = useSeen(() => setTrouble(""));
  const tellText = useRef(onText);
  tellText.current = onText;
  const lens = picked ?? kept;
  useEffect(() => {
    if (lens === undefined || !seen || !video.current) return;
    setSays("finder-hold");
    const stop = watch(video.current, lens, {
      opened: setStream,
      trouble: setTrouble,
      several: () => setSays("finder-several"),
      nothing: () => setSays("finder-nothing"),
      one: () => setSays("finder-hold"),
      found: (text) => tellText.current(text),
    });
    return () => {
      stop();
      setStream(null);
    };
  }, [lens, seen, turn]);
  const again = () => {
    setTrouble("");
    setTurn(turn + 1);
  };
  return { trouble, says, stream, useLens: setPicked, again };
}

/** Whether the page is shown, and this part of it has not fallen asleep behind the lock. */
function useSeen(back: () => void): boolean {
  const [seen, setSeen] = useState(!document.hidden);
  const [onTheLock] = useState(asleep.value);
  useEffect(() => {
    const look = () => {
      setSeen(!document.hidden);
      if (!document.hidden) back();
    };
    document.addEventListener("visibilitychange", look);
    return () => document.removeEventListener("visibilitychange", look);
  }, []);
  return seen && (onTheLock || !asleep.value);
}

/** The light and the other lenses, where the phone has them. */
function Controls({ camera }: { camera: Camera }) {
  const { stream } = camera;
  const [lit, setLit] = useState(false);
  const lenses = useLoaded(async () => (stream ? backLenses() : []), [stream]) ?? [];
  useEffect(() => {
    setLit(false);
    if (stream) void tune(stream, false).catch(() => {});
  }, [stream]);
  if (!stream) return null;
  const light = () => {
    void tune(stream, !lit)
      .then(() => setLit(!lit))
      .catch(() => setLit(false));
  };
  const other = () => {
    const next = lenses[(lenses.indexOf(lensOf(stream)) + 1) % lenses.length] ?? "";
    camera.useLens(next);
    void chooseLens(next);
  };
  const torch = hasTorch(stream);
  if (!torch && lenses.length < 2) return null;
  return (
    <div class="finder-controls">
      {torch && (
        <button type="button" class="button" aria-pressed={lit} onClick={light}>
          {t(lit ? "finder-light-off" : "finder-light-on")}
        </button>
      )}
      {lenses.length > 1 && (
        <button type="button" class="button" onClick={other}>
          {t("finder-lens")}
        </button>
      )}
    </div>
  );
}
