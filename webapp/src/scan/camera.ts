/** The camera: its lenses, its light, and what may keep it from starting. */
import { setSetting, setting } from "../store/db";

export type Trouble = "not-allowed" | "none" | "not-secure" | "busy" | "no-reader";

const LENS = "lens";
/** What browsers call a camera at the back, where they do not say which way it faces. */
const BACK = /back|rear|environment|trasera|arri[eè]re|r[uü]ck|posteriore/i;

/** What cameras of phones can do beyond what the standard's types list. */
interface Abilities extends MediaTrackCapabilities {
  torch?: boolean;
  focusMode?: string[];
}

/** The camera by its lens, as it was chosen on this phone; any at the back where that one is gone. */
export async function openCamera(lens: string): Promise<MediaStream> {
  const size = { width: { ideal: 1280 }, height: { ideal: 720 } };
  const back = { facingMode: { ideal: "environment" }, ...size };
  if (!lens) return navigator.mediaDevices.getUserMedia({ video: back, audio: false });
  const chosen = { deviceId: { exact: lens }, ...size };
  try {
    return await navigator.mediaDevices.getUserMedia({ video: chosen, audio: false });
  } catch (error) {
    if (troubleOf(error) === "not-allowed") throw error;
    return navigator.mediaDevices.getUserMedia({ video: back, audio: false });
  }
}

export function close(stream: MediaStream | null): void {
  for (const track of stream?.getTracks() ?? []) track.stop();
}

export function troubleOf(error: unknown): Trouble {
  if (!navigator.mediaDevices) return isSecureContext ? "none" : "not-secure";
  const name = error instanceof DOMException ? error.name : "";
  if (name === "NotAllowedError") return "not-allowed";
  return name === "NotFoundError" || name === "OverconstrainedError" ? "none" : "busy";
}

/** The lenses at the back, by id. Browsers tell them only while the camera is allowed. */
export async function backLenses(): Promise<string[]> {
  const all = (await navigator.mediaDevices.enumerateDevices()).filter(({ kind }) => kind === "videoinput");
  return all.filter(facesBack).map(({ deviceId }) => deviceId);
}

function facesBack(device: MediaDeviceInfo): boolean {
  const faces = (device as InputDeviceInfo).getCapabilities?.().facingMode ?? [];
  return faces.length > 0 ? faces.includes("environment") : BACK.test(device.label);
}

export async function chosenLens(): Promise<string> {
  return (await setting<string>(LENS)) ?? "";
}

export function chooseLens(lens: string): Promise<void> {
  return setSetting(LENS, lens);
}

export function trackOf(stream: MediaStream): MediaStreamTrack | undefined {
  return stream.getVideoTracks()[0];
}

/** The lens that is in use, by id. */
export function lensOf(stream: MediaStream): string {
  return trackOf(stream)?.getSettings().deviceId ?? "";
}

function abilities(stream: MediaStream): Abilities {
  return trackOf(stream)?.getCapabilities?.() ?? {};
}

export function hasTorch(stream: MediaStream): boolean {
  return abilities(stream).torch === true;
}

/** The light on or off, and focus that follows where the camera can: one call, since each takes back the one before. */
export async function tune(stream: MediaStream, torch: boolean): Promise<void> {
  const wanted: Record<string, unknown> = {};
  if (hasTorch(stream)) wanted.torch = torch;
  if (abilities(stream).focusMode?.includes("continuous")) wanted.focusMode = "continuous";
  if (Object.keys(wanted).length > 0) await trackOf(stream)?.applyConstraints({ advanced: [wanted] });
}
