/** A trend as a picture: drawn anew when its size, the colours or the paper change; gone through by mouse or arrow keys. */
import { useEffect, useRef } from "preact/hooks";
import uPlot from "uplot";
import "uplot/dist/uPlot.min.css";
import { columnsOf, type Drawn, optionsOf } from "./drawing";

interface ChartProps {
  drawn: Drawn;
  height: number;
  /** Place of the chosen value, from 0; null for none. */
  at: number | null;
  /** First and last place that are drawn, from 0. */
  span: readonly [number, number];
  onPoint: (place: number) => void;
}

/** Width of a sheet of paper, in the pixels of a browser's print. */
const PAPER = 660;
/** So much lower on paper, where it stands with what it says on one page. */
const LOW = 0.8;

export function Chart({ drawn, height, at, span, onPoint }: ChartProps) {
  const box = useRef<HTMLDivElement>(null);
  const chart = useRef<uPlot | null>(null);
  const told = useRef(onPoint);
  told.current = onPoint;
  useEffect(() => {
    const here = box.current;
    if (!here) return;
    let paper = false;
    const make = () => {
      chart.current?.destroy();
      const size = paper ? { width: PAPER, height: height * LOW } : { width: here.clientWidth, height };
      const made = new uPlot(
        optionsOf(here, drawn, size, (place) => told.current(place)),
        columnsOf(drawn),
        here,
      );
      made.setScale("x", { min: span[0] + 1, max: span[1] + 1 });
      chart.current = made;
    };
    make();
    const stop = redrawnBy(here, (onPaper) => {
      paper = onPaper;
      make();
    });
    return () => {
      stop();
      chart.current?.destroy();
      chart.current = null;
    };
  }, [drawn, height, span[0], span[1]]);
  useEffect(() => {
    const value = at === null ? null : drawn.values[at];
    const found = chart.current;
    if (!found || at === null || typeof value !== "number") return;
    const move = { left: found.valToPos(at + 1, "x"), top: found.valToPos(value, "y") };
    found.batch(() => found.setCursor(move, false));
  }, [at, drawn, span[0], span[1]]);
  return <div class="trend-chart" ref={box} aria-hidden="true" />;
}

/** Whatever makes a chart look otherwise: its width, dark or daylight, the phone's settings, paper. */
function redrawnBy(here: HTMLElement, redraw: (onPaper: boolean) => void): () => void {
  const [dark, paper] = [matchMedia("(prefers-color-scheme: dark)"), matchMedia("print")];
  const again = () => redraw(paper.matches);
  let width = here.clientWidth;
  const sized = new ResizeObserver(() => {
    if (here.clientWidth === width || paper.matches) return;
    width = here.clientWidth;
    again();
  });
  sized.observe(here);
  const settings = new MutationObserver(again);
  settings.observe(document.documentElement, { attributes: true });
  for (const media of [dark, paper]) media.addEventListener("change", again);
  void document.fonts.ready.then(() => here.isConnected && again());
  return () => {
    sized.disconnect();
    settings.disconnect();
    for (const media of [dark, paper]) media.removeEventListener("change", again);
  };
}
