import { chance } from "../work/chance";
import type { Ride } from "../work/ride";
import type { PastJob } from "./past";

const LEAN_QUARTER: Ride = {
  felt: [
    { throttle: "quarter", condition: "steady", engine: "hot", sign: "hesitates", note: "" },
    { throttle: "full", condition: "steady", engine: "hot", sign: "good", note: "" },
  ],
  note: "Clean at the top, a hitch just off the idle part.",
};
const RICH_TOP: Ride = {
  felt: [
    { throttle: "full", condition: "steady", engine: "hot", sign: "lean", note: "flat above 5500" },
    { throttle: "half", condition: "steady", engine: "hot", sign: "good", note: "" },
  ],
  note: "Runs out of breath on the long climb.",
};
const IDLE: Ride = {
  felt: [{ throttle: "closed", condition: "idle", engine: "hot", sign: "lean", note: "hangs, then drops" }],
  note: "Idle hangs hot.",
};
const RIDES: readonly (readonly Ride[])[] = [
  [],
  [],
  [LEAN_QUARTER],
  [],
  [IDLE],
  [],
  [],
  [RICH_TOP],
  [],
  [LEAN_QUARTER, IDLE],
];

const FINDINGS = [
  "Chain near its limit.",
  "Rear brake light switch sticks.",
  "Fork seal weeps on the left.",
  "Air filter was torn at the rim.",
  "Slide guide shows first wear: look again at 30 000 km.",
];

/** How the jobs ended that did not simply end paid, by their place in the list counted from the newest. */
const ENDS: Readonly<Record<number, PastJob["end"]>> = {
  1: "unpaid",
  2: "no answer",
  3: "unpaid",
  4: "part paid",
  6: "declined",
  8: "no answer",
  9: "credited",
  12: "cancelled",
  17: "declined",
};

/** What customers tick and leave out, by package. */
export const OPTIONS = {
  OPEN: [
    {},
    { take: ["weld"] },
    { take: ["air-filter"] },
    { leave: ["lift"] },
    { leave: ["opening"], take: ["snorkel"] },
    { take: ["air-filter", "weld"] },
  ],
  RESET: [{}, { take: ["pilot"] }, { take: ["vents"] }, {}],
  TWIN: [
    {},
    { take: ["balance-full"] },
    { take: ["slides", "plugs"] },
    { take: ["balance-full", "rubbers"] },
  ],
} as const;

const FIRST_BIKE = 14;
const BIKES = 31;
const MODELS = [
  "drover580",
  "trail400",
  "drover580",
  "twin750",
  "trail400",
  "drover580",
  "hack350",
  "drover580",
  "trail400",
  "twin750",
];

/** The quotes and jobs of eighteen months, closer together towards today. */
export function history(count: number): PastJob[] {
  const deal = chance(640);
  return Array.from({ length: count }, (_, at): PastJob => {
    const fromNewest = count - at;
    const bike = FIRST_BIKE + (at % BIKES);
    const model = MODELS[bike % MODELS.length];
    const big = model === "drover580" && deal.share() < 0.7;
    const code = model === "twin750" ? "TWIN" : big ? "OPEN" : "RESET";
    const options: { take?: readonly string[]; leave?: readonly string[] } = deal.pick(OPTIONS[code]);
    const finding = at % 4 === 2 ? { finding: deal.pick(FINDINGS) } : {};
    return {
      seed: 1000 + at,
      day: -Math.round(14 + 352 * (fromNewest / count) ** 1.25),
      bike,
      package: code,
      ...options,
      end: ENDS[fromNewest] ?? "paid",
      rides: RIDES[at % RIDES.length] ?? [],
      deposit: at % 3 === 0,
      ...finding,
      variation: at % 13 === 5 && code !== "TWIN",
    };
  });
}
