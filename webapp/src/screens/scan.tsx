/** Scan: the camera, and beside it the typed code and the list of marks. */
import { useEffect, useRef, useState } from "preact/hooks";
import { forgiven, readLink } from "../core/tagcode";
import { Frame, Notice } from "../parts/frame";
import { useLoaded } from "../parts/use";
import { cameraTrouble, decoder, openCamera } from "../scan/camera";
import { foundBy, go, linkTo } from "../state";
import { findTag, jobList } from "../store/jobs";

const PATIENCE = 10_000;
const PAUSE = 120;

/** Open the piece of a code; what to do instead where that cannot be done. */
async function openTag(code: string, how: "scanned" | "typed"): Promise<string> {
  const found = await findTag(code);
  if (!found) {
    return `No tag on this phone has the code ${code}. It may belong to a job this phone does not carry, or to another shop. Pick the mark from the list.`;
  }
  foundBy.value = how;
  navigator.vibrate?.(60);
  go("piece", found.job, found.piece);
  return "";
}

/** What a scanned text leads to; '' where a piece was opened. */
async function follow(text: string): Promise<string> {
  const link = readLink(text);
  if (!link)
    return "This symbol is no tag of a piece, or a symbol of its code is damaged. Try the other one, or type the code.";
  const [host, code] = link;
  if (host !== location.host.toLowerCase() && (await findTag(code)) === null) {
    return `This tag belongs to another shop (${host}). Nothing was opened. Is it the right piece?`;
  }
  return openTag(code, "scanned");
}

export function Scan() {
  const video = useRef<HTMLVideoElement>(null);
  const [says, setSays] = useState("");
  const [typed, setTyped] = useState("");
  const jobs = useLoaded(jobList, []);
  useEffect(() => watch(video.current, setSays), []);
  const open = async () => {
    const code = forgiven(typed);
    setSays(
      code
        ? await openTag(code, "typed")
        : `'${typed}' is no code: a symbol is wrong or missing. It has seven symbols, as between the two QR symbols.`,
    );
  };
  return (
    <Frame>
      <div class="finder">
        <video ref={video} playsInline muted autoplay aria-label="Camera" />
      </div>
      <div class="body">
        {says ? <Notice kind="bad">{says}</Notice> : <p>Hold the tag inside the frame. Either symbol will do.</p>}
        <form
          class="pair"
          onSubmit={(event) => {
            event.preventDefault();
            void open();
          }}
        >
          <label class="field">
            Code on the tag
            <input
              autocapitalize="characters"
              autocomplete="off"
              spellcheck={false}
              value={typed}
              onInput={(event) => setTyped(event.currentTarget.value)}
            />
          </label>
          <button type="submit" class="button" disabled={!typed}>
            Open
          </button>
        </form>
        <p>Tag gone? Pick the mark:</p>
        {jobs?.map((job) => (
          <a key={job.id} class="button" href={linkTo("job", job.id)}>
            Marks of job {job.id}
          </a>
        ))}
      </div>
    </Frame>
  );
}

/** Look for a symbol until one is found or the screen is left. */
function watch(video: HTMLVideoElement | null, say: (text: string) => void): () => void {
  let live = true;
  let stream: MediaStream | null = null;
  const begun = Date.now();
  const look = async () => {
    if (!video) return;
    try {
      stream = await openCamera();
    } catch (error) {
      say(cameraTrouble(error));
      return;
    }
    if (!live) return close();
    video.srcObject = stream;
    await video.play().catch(() => {});
    const reader = await decoder();
    let last = "";
    while (live) {
      const found = video.readyState >= 2 ? await reader.detect(video).catch(() => []) : [];
      const text = found[0]?.rawValue ?? "";
      if (live && text && text !== last) {
        last = text;
        say(await follow(text));
      } else if (live && !last && Date.now() - begun > PATIENCE) {
        last = " ";
        say("No code found yet. Wipe the tag, go closer, turn on a light; or type the code, or pick the mark.");
      }
      await new Promise((done) => setTimeout(done, PAUSE));
    }
  };
  const close = () => {
    for (const track of stream?.getTracks() ?? []) track.stop();
  };
  void look();
  return () => {
    live = false;
    close();
  };
}

/** What a tag's link opens, scanned by the phone's own camera. */
export function TagScreen({ code }: { code: string }) {
  const says = useLoaded(async () => {
    const meant = forgiven(code);
    return meant
      ? await openTag(meant, "scanned")
      : `'${code}' is no code of a tag: a symbol was misread. Scan again, or pick the mark.`;
  }, [code]);
  return (
    <Frame>
      <div class="body">
        {says && <Notice kind="bad">{says}</Notice>}
        <a class="button" href={linkTo("scan")}>
          Scan
        </a>
      </div>
    </Frame>
  );
}
