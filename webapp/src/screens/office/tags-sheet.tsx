/** A small picture of a sheet: which labels are used up, and which will be printed. */
import { t } from "../../language";
import type { Schemas } from "./asking";

interface SheetPictureProps {
  sheet: Schemas["Sheet"];
  start: number;
  count: number;
}

export function SheetPicture({ sheet, start, count }: SheetPictureProps) {
  const [wide = 0, high = 0] = sheet.page;
  const [width = 0, height = 0] = sheet.label;
  const [across = 0, down = 0] = sheet.gap;
  const places = Array.from({ length: sheet.columns * sheet.rows }, (_, place) => place);
  return (
    <svg
      class="tags-picture"
      viewBox={`-2 -2 ${wide + 4} ${high + 4}`}
      role="img"
      aria-label={t("tags-picture", { start })}
    >
      <rect class="page" width={wide} height={high} />
      {places.map((place) => (
        <rect
          key={place}
          class={place + 1 < start ? "used" : place + 1 < start + count ? "full" : "free"}
          x={sheet.left + (place % sheet.columns) * (width + across) + 1}
          y={sheet.top + Math.floor(place / sheet.columns) * (height + down) + 1}
          width={width - 2}
          height={height - 2}
        />
      ))}
    </svg>
  );
}
