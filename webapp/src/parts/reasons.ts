/** Why something is not judged, not valid or no number: what core says in English, in the language of the phone. */
import type { FluentVariable } from "@fluent/bundle";
import { t, word } from "../language";
import { calendarDay, localized } from "./customs";

/**
 * What core says, as patterns, and the message of each. What a group holds is told by the end of its name: *Reason is a
 * reason itself, *Number a decimal, *Day a date, *Verdict, *Value and *Quantity are words of sets, *Fields are names of a
 * weld's.
 */
export const PATTERNS: readonly (readonly [RegExp, string])[] = [
  // limits.ts
  [/^limit not known: (?<whyReason>.+)$/s, "limit-not-known"],
  [/^the lower limit is above the upper$/, "limits-crossed"],
  [/^the plan revision or figures are not here$/, "revision-not-here"],
  // formula.ts, items.ts
  [/^the formula gives yes or no where a number is needed$/, "formula-yes-or-no"],
  [/^the condition gives a number where yes or no is needed$/, "condition-number"],
  [/^the formula is nested too deep$/, "too-deep"],
  [/^'(?<name>.*)' is unknown; the plan was made for a newer Seamtag$/s, "newer-plan"],
  [/^yes or no stands where a number is needed$/, "number-needed"],
  [/^a number stands where yes or no is needed$/, "yes-or-no-needed"],
  [/^division by zero$/, "division-by-zero"],
  [/^the result is too large$/, "too-large"],
  [/^the result is too small$/, "too-small"],
  [/^square root of a negative value$/, "root-of-negative"],
  [/^there is no function (?<name>.*)\(\)$/s, "no-function"],
  [/^(?<name>\w*)\(\) takes one item$/, "takes-one-item"],
  [/^readings of (?<name>.+) disagree$/s, "readings-disagree"],
  [/^only one (?<name>\S+)$/, "only-one"],
  [/^there is no table '(?<name>.*)'$/s, "no-table"],
  [/^table '(?<name>.*)' begins above the value$/s, "table-begins-above"],
  [/^table '(?<name>.*)' has no value there$/s, "table-no-value"],
  // welding.ts
  [/^(?<whatQuantity>.+) must be above 0, and it is (?<isNumber>\S+)$/, "above-zero"],
  [/^(?<whatQuantity>.+) must not be below 0, and it is (?<isNumber>\S+)$/, "not-below-zero"],
  [/^the efficiency must not be above 1, and it is (?<isNumber>\S+)$/, "efficiency-above-one"],
  [/^the share of (?<element>\S+) must not be above 100, and it is (?<isNumber>\S+)$/, "share-above-hundred"],
  [
    /^not yet in contact: the inside diameter is (?<isNumber>\S+), and must first grow by (?<byNumber>\S+) to (?<toNumber>\S+)$/,
    "not-in-contact",
  ],
  [
    /^the tube has no wall: its outside diameter (?<outsideNumber>\S+) is not above its inside diameter (?<insideNumber>\S+)$/,
    "no-wall",
  ],
  [
    /^the tube does not go in: the hole (?<holeNumber>\S+) is below its outside diameter (?<outsideNumber>\S+)$/,
    "does-not-go-in",
  ],
  // verdict.ts
  [/^the gauge's uncertainty is not known$/, "uncertainty-not-known"],
  [/^nearer to the limit than the gauge can tell$/, "nearer-than-gauge"],
  [/^uncertainty over a quarter of the tolerance$/, "coarse-tolerance"],
  [/^uncertainty over a quarter of the limit$/, "coarse-limit"],
  // judging.ts
  [/^the plan has no such item$/, "no-such-item"],
  [/^recorded in (?<uom>.+), the plan asks no reading$/s, "no-reading-asked"],
  [/^recorded in (?<uom>.+), the plan asks (?<asked>\S.*)$/s, "other-uom"],
  [/^the gauge (?<gauge>.+) is not known$/s, "gauge-not-known"],
  [/^no gauge was named; the plan asks for one: (?<kind>.+)$/s, "no-gauge"],
  [/^the report is not back$/, "report-not-back"],
  [/^(?<lackingFields>(?:stamp|procedure|lot)(?:, (?:procedure|lot))*) not given$/, "not-given"],
  [/^the plan does not allow 'does not apply' here$/, "must-apply"],
  // procedures.ts
  [/^the procedure (?<procedure>.+) is not known$/s, "procedure-not-known"],
  [/^the procedure (?<procedure>.+) is withdrawn since (?<sinceDay>\S+)$/s, "procedure-withdrawn"],
  [
    /^(?<oneReason>(?:preheat|interpass|volts|amps|travel|position|arc energy) [^:]+: [^;]+); (?<restReason>.+)$/s,
    "one-and-rest",
  ],
  [
    /^(?<whatValue>[a-z ]+) (?<isNumber>\S+): (?<procedure>.+) asks at least (?<lowerNumber>\S+) (?<uom>\S+)$/s,
    "procedure-at-least",
  ],
  [
    /^(?<whatValue>[a-z ]+) (?<isNumber>\S+): (?<procedure>.+) asks at most (?<upperNumber>\S+) (?<uom>\S+)$/s,
    "procedure-at-most",
  ],
  [
    /^(?<whatValue>[a-z]+) (?<isNumber>\S+): (?<procedure>.+) asks (?<lowerNumber>[-.\d]+) to (?<upperNumber>\S+) (?<uom>\S+)$/s,
    "procedure-between",
  ],
  [/^position (?<position>[FHVO]): (?<procedure>.+) asks (?<asked>[FHVO, ]+)$/s, "procedure-position"],
  [/^(?<whatValue>preheat|interpass|volts|amps|travel): (?<whyReason>.+)$/s, "value-why"],
  // qualifications.ts, and flags.ts with the welder before it
  [/^no qualification is kept$/, "not-qualified"],
  [/^none for (?<process>\S+) before (?<beforeDay>[-\d]+)$/, "not-qualified-yet"],
  [/^none for (?<process>\S+)$/, "not-qualified-process"],
  [/^(?<process>\S+) lapsed on (?<onDay>[-\d]+); last proof (?<lastDay>[-\d]+)$/, "qualification-lapsed"],
  [/^(?<process>\S+) to (?<mostNumber>\S+) in; the item is (?<isNumber>\S+) in$/, "qualified-to"],
  [/^(?<process>\S+) in (?<positions>[FHVO, ]+); welded in (?<position>[FHVO])$/, "qualified-in"],
  [
    /^(?<welder>[^:]+): (?<lacksReason>no qualification is kept|none for .+|\S+ lapsed on .+|\S+ to \S+ in; .+|\S+ in .+; .+)$/s,
    "of-welder",
  ],
  // flags.ts
  [/^calibrated until (?<untilDay>\S+)$/, "calibrated-until"],
  [/^the phone said (?<saidVerdict>.+)$/s, "phone-said"],
  [/^disposes of own finding$/, "own-finding"],
  // The server alone: review/flagging.py, trends/warning.py
  [/^another record follows the same one of this key$/, "chain-fork"],
  [/^the record before it of this key has not come$/, "chain-gap"],
  [/^sent by a phone that is shut out$/, "phone-shut-out"],
  [/^what it relies on has not come$/, "never-came"],
  [/^its picture has not come from the phone yet$/, "no-picture"],
  [/^the phone's clock is fast by (?<minutes>\d+) min or more: it came in before it was made$/, "clock-fast"],
  [/^the phone's clock is slow by (?<minutes>\d+) min or more: it had seen what came in later$/, "clock-slow"],
  [
    /^rising: the average went from (?<fromNumber>\S+) to (?<toNumber>\S+) of half the tolerance$/,
    "rising-in-tolerance",
  ],
  [
    /^falling: the average went from (?<fromNumber>\S+) to (?<toNumber>\S+) of half the tolerance$/,
    "falling-in-tolerance",
  ],
  [/^rising: the average went from (?<fromNumber>\S+) to (?<toNumber>\S+) ?(?<uom>.*)$/s, "rising"],
  [/^falling: the average went from (?<fromNumber>\S+) to (?<toNumber>\S+) ?(?<uom>.*)$/s, "falling"],
  // numbers.ts
  [/^Nothing was typed\./, "nothing-typed"],
  [/^'(?<typed>.*)' has more than (?<most>\d+) digits\./s, "too-many-digits"],
  [/^'(?<typed>.*)' has no number before its inch mark\./s, "no-number-before-mark"],
  [/^'(?<typed>.*)' has 12 inches or more beside its feet\./s, "too-many-inches"],
  [/^'(?<typed>.*)' divides by zero\./s, "fraction-by-zero"],
  [/^'(?<typed>.*)' is no fraction of a rule:/s, "no-rule-fraction"],
  [/^'(?<typed>.*)' has a fraction of one or more beside a whole number\./s, "fraction-of-one"],
  [/^'(?<typed>.*)' has a comma and a point\./s, "comma-and-point"],
  [/^'(?<typed>.*)' has a comma\./s, "has-comma"],
  [/^'(?<typed>.*)' has a point\./s, "has-point"],
  [/^'(?<typed>.*)' stops in the middle of a fraction\./s, "half-a-fraction"],
  [/^'(?<typed>.*)' is not a number\./s, "not-a-number"],
  // A missing figure or reading, by the name it has in the plan: after all else that begins with 'no'.
  [/^no (?<name>\S+)$/, "missing"],
];

/** What core says, in the language of the phone; the text itself where it is none of core's reasons. */
export function reasonText(reason: string): string {
  if (!reason) return "";
  for (const [pattern, id] of PATTERNS) {
    const found = pattern.exec(reason);
    if (found) return t(`reason-${id}`, valuesOf(found.groups ?? {}));
  }
  return word("signing", reason);
}

function valuesOf(groups: Readonly<Record<string, string>>): Record<string, FluentVariable> {
  const found = Object.entries(groups).map(([name, value]) => {
    const kind = /[A-Z]\w*$/.exec(name)?.[0] ?? "";
    return [name.slice(0, name.length - kind.length), shownAs(kind, value)];
  });
  return Object.fromEntries(found);
}

function shownAs(kind: string, value: string): string {
  switch (kind) {
    case "Reason":
      return reasonText(value);
    case "Number":
      return localized(value);
    case "Day":
      return calendarDay(value);
    case "Verdict":
      return word("verdict", value);
    case "Value":
      return word("weld-value", value);
    case "Quantity":
      return quantity(value);
    case "Fields":
      return value
        .split(", ")
        .map((one) => word("field", one))
        .join(", ");
    default:
      return value;
  }
}

function quantity(name: string): string {
  const share = /^the share of (\S+)$/.exec(name);
  return share ? t("quantity-share", { element: share[1] ?? "" }) : word("quantity", name);
}

/** The two ways of reading what was typed without its blank, as `17/8 or 1 7/8?`; '' where there is no doubt. */
export function doubtText(doubt: string): string {
  const found = /^(.+) or (.+)\?$/.exec(doubt);
  return found ? t("reason-doubt", { one: found[1] ?? "", other: found[2] ?? "" }) : doubt;
}
