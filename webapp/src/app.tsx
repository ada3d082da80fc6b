/** Which screen is shown. */
import { atDesk, lazily } from "./parts/lazily";
import { NotSaved, StoreTrouble } from "./parts/not-saved";
import { JobScreen } from "./screens/job";
import { PieceScreen, Scan, TagScreen } from "./screens/scan";
import { Unlock } from "./screens/unlock";
import { Work } from "./screens/work";
import { asleep, me, route } from "./state";
import { UpdateOffer } from "./update";

const StepScreen = lazily(() => import("./screens/step").then((module) => module.StepScreen));
const ItemScreen = lazily(() => import("./screens/item").then((module) => module.ItemScreen));
const WeldMap = lazily(() => import("./screens/weld-map").then((module) => module.WeldMap));
const Review = atDesk(() => import("./screens/review").then((module) => module.ReviewScreen));
const Unsent = lazily(() => import("./screens/unsent").then((module) => module.Unsent));
const Pin = lazily(() => import("./screens/pin").then((module) => module.PinScreen));
const SettingsScreen = lazily(() => import("./screens/settings").then((module) => module.SettingsScreen));
const Badge = lazily(() => import("./screens/badge").then((module) => module.BadgeScreen));
const Plans = atDesk(() => import("./screens/office/plans").then((module) => module.PlansScreen));
const PlanEditor = atDesk(() => import("./screens/office/plan-editor").then((module) => module.PlanEditor));
const PlanCompare = atDesk(() => import("./screens/office/plan-compare").then((module) => module.PlanCompare));
const Jobs = atDesk(() => import("./screens/office/jobs").then((module) => module.JobsScreen));
const JobPage = atDesk(() => import("./screens/office/job-page").then((module) => module.JobPage));
const NewJob = atDesk(() => import("./screens/office/new-job").then((module) => module.NewJobScreen));
const JobChange = atDesk(() => import("./screens/office/job-change").then((module) => module.JobChange));
const Trace = atDesk(() => import("./screens/office/trace").then((module) => module.TraceScreen));
const DrawingDesk = atDesk(() => import("./screens/office/drawing").then((module) => module.DrawingDesk));
const Tags = atDesk(() => import("./screens/office/tags").then((module) => module.TagsScreen));
const Office = atDesk(() => import("./screens/office/index").then((module) => module.OfficeScreen));
const People = atDesk(() => import("./screens/office/people").then((module) => module.PeopleScreen));
const Procedures = atDesk(() => import("./screens/office/procedures").then((module) => module.ProceduresScreen));
const Gauges = atDesk(() => import("./screens/office/gauges").then((module) => module.GaugesScreen));
const Trends = atDesk(() => import("./screens/trends").then((module) => module.TrendsScreen));
const Parts = lazily(() => import("./screens/parts").then((module) => module.Parts));

function Screen() {
  const [name, ...rest] = route.value;
  const [first = "", second = "", third = "", fourth = ""] = rest;
  if (import.meta.env.DEV && name === "parts") return <Parts />;
  // What is unsent can be seen and carried away without a PIN.
  if (name === "unsent") return <Unsent />;
  if (name === "pin") return <Pin />;
  if (name === "settings") return <SettingsScreen />;
  if (!me.value) return <Unlock />;
  switch (name) {
    case "scan":
      return <Scan />;
    case "tag":
    case "board":
    case "gauge":
      return <TagScreen key={rest.join(" ")} code={first} kind={name} />;
    case "job":
      return <JobScreen key={first} id={first} board={second === "board"} />;
    case "piece":
      return <PieceScreen jobId={first} pieceId={second} />;
    case "step":
      return <StepScreen key={rest.join(" ")} jobId={first} pieceId={second} code={third} />;
    case "item":
      return <ItemScreen key={rest.join(" ")} jobId={first} pieceId={second} code={third} itemCode={fourth} />;
    case "map":
      return <WeldMap id={first} sheet={second} />;
    case "drawing":
      return <DrawingDesk key={first} id={first} />;
    case "badge":
      return <Badge />;
    case "plans":
      return <Plans />;
    case "plan":
      return <PlanEditor key={first} hash={first} />;
    case "plan-compare":
      return <PlanCompare former={first} latter={second} />;
    case "office":
      return <Office />;
    case "people":
      return <People />;
    case "procedures":
      return <Procedures />;
    case "gauges":
      return <Gauges key={first} id={first} />;
    case "tags":
      return <Tags key={first} id={first} />;
    case "review":
      return <Review parts={rest} />;
    case "trends":
      return <Trends parts={rest} />;
    case "jobs":
      return first ? <JobPage key={first} id={first} /> : <Jobs />;
    case "new-job":
      return <NewJob />;
    case "job-change":
      return <JobChange key={first} id={first} />;
    case "trace":
      return <Trace key={rest.join(" ")} job={first} piece={second} />;
    default:
      return <Work />;
  }
}

/** The screen; out of sight while the app has locked itself. Whoever else unlocks begins on a screen of their own. */
function Guarded() {
  return (
    <>
      <div key={me.value?.person} hidden={asleep.value} inert={asleep.value}>
        <Screen />
      </div>
      {asleep.value && <Unlock />}
    </>
  );
}

export function App() {
  return (
    <>
      <Guarded />
      <div class="bottom">
        <StoreTrouble />
        <NotSaved />
        <UpdateOffer />
      </div>
    </>
  );
}
