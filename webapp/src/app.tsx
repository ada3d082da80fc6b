/** Which screen is shown. */
import { lazily } from "./parts/lazily";
import { NotSaved, StoreTrouble } from "./parts/not-saved";
import { JobScreen } from "./screens/job";
import { Scan, TagScreen } from "./screens/scan";
import { Unlock } from "./screens/unlock";
import { Work } from "./screens/work";
import { me, route } from "./state";
import { UpdateOffer } from "./update";

const PieceScreen = lazily(() => import("./screens/piece").then((module) => module.PieceScreen));
const StepScreen = lazily(() => import("./screens/step").then((module) => module.StepScreen));
const ItemScreen = lazily(() => import("./screens/item").then((module) => module.ItemScreen));
const Review = lazily(() => import("./screens/review").then((module) => module.ReviewScreen));
const Unsent = lazily(() => import("./screens/unsent").then((module) => module.Unsent));
const Pin = lazily(() => import("./screens/pin").then((module) => module.PinScreen));
const Parts = lazily(() => import("./screens/parts").then((module) => module.Parts));

/** What comes after a scan, fetched while nobody waits for it. */
export function fetchAhead(): void {
  for (const screen of [PieceScreen, StepScreen, ItemScreen]) screen.fetch();
}

function Screen() {
  const [name, ...rest] = route.value;
  const [first = "", second = "", third = "", fourth = ""] = rest;
  if (import.meta.env.DEV && name === "parts") return <Parts />;
  // What is unsent can be seen and carried away without a PIN.
  if (name === "unsent") return <Unsent />;
  if (name === "pin") return <Pin />;
  if (!me.value) return <Unlock />;
  switch (name) {
    case "scan":
      return <Scan />;
    case "tag":
      return <TagScreen code={first} />;
    case "job":
      return <JobScreen id={first} />;
    case "piece":
      return <PieceScreen jobId={first} pieceId={second} />;
    case "step":
      return <StepScreen key={rest.join(" ")} jobId={first} pieceId={second} code={third} />;
    case "item":
      return <ItemScreen key={rest.join(" ")} jobId={first} pieceId={second} code={third} itemCode={fourth} />;
    case "review":
      return <Review />;
    default:
      return <Work />;
  }
}

export function App() {
  return (
    <>
      <Screen />
      <div class="bottom">
        <StoreTrouble />
        <NotSaved />
        <UpdateOffer />
      </div>
    </>
  );
}
