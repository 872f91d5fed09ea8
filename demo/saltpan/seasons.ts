import { addDaysOff } from "@/lib/data/shop/hours";
import { counterDays } from "../seasons/counterDays";
import { busyDays, type Season } from "../seasons/days";
import { deliveries } from "../seasons/deliveries";
import { dealt } from "../seasons/people";
import type { End } from "../seasons/settle";
import { type SmallJob, type SmallWork, smallJob } from "../seasons/smallJob";
import type { Stage } from "../stage";
import { chance } from "../work/chance";
import type { Course } from "../work/courses";
import type { Garage } from "../work/garage";
import { OPTIONS } from "./history";
import { type PastJob, pastJob } from "./past";
import { FIRST_MORE, modelOf } from "./people";

/** Riders come in spring, in the south September to November. */
const SEASON: Season = [0.6, 0.8, 0.9, 0.9, 0.7, 0.6, 0.7, 1.1, 1.7, 1.9, 1.6, 0.9];

const WORK: readonly SmallWork[] = [
  { title: "Float height set, needle valve looked at", minutes: 75, grade: "bench" },
  { title: "Pilot circuit cleared and set", minutes: 60, grade: "bench" },
  {
    title: "Carburettor stripped, cleaned and rebuilt",
    minutes: 270,
    grade: "bench",
    parts: [
      ["OR-BOWL-40", "1"],
      ["OR-SCREW", "1"],
      ["CLEAN-C", "150"],
    ],
  },
  { title: "Both carburettors stripped, cleaned and rebuilt", minutes: 450, grade: "bench" },
  { title: "Woken after years in a shed: tank, lines, carburettor", minutes: 600, grade: "workshop" },
  { title: "Air leak traced, intake rubber seated anew", minutes: 150, grade: "workshop" },
  {
    title: "Fuel lines and filter renewed",
    minutes: 80,
    grade: "workshop",
    parts: [
      ["FF-6", "1"],
      ["HOSE-F6", "600"],
    ],
  },
  { title: "Throttle cables renewed and adjusted", minutes: 95, grade: "workshop" },
  { title: "Spindle bushes renewed, body trued", minutes: 840, grade: "bench" },
  { title: "Exhaust stub welded, leak closed", minutes: 140, grade: "fabrication" },
  { title: "Air box opened and braced", minutes: 260, grade: "fabrication" },
  {
    title: "Plug, filter and idle before a long ride",
    minutes: 70,
    grade: "workshop",
    parts: [["PLUG-8", "1"]],
  },
];

/** Of forty invoices most are paid at once; the rest as it goes. */
const ENDS: readonly End[] = [
  ...Array.from({ length: 24 }, (): End => "paid"),
  ...Array.from({ length: 6 }, (): End => "late"),
  "in parts",
  "in parts",
  "unpaid",
  "written off",
  "bounced",
  "overpaid",
  "credited",
  "credited in part",
  "credited in part",
  "refunded",
];
const OFFERS: readonly PastJob["end"][] = [
  ...Array.from({ length: 14 }, () => "paid" as const),
  "declined",
  "declined",
  "no answer",
  "no answer",
  "cancelled",
  "part paid",
];
const FORCED: readonly string[] = ["declined", "no answer", "cancelled"];
const BACK: SmallWork = {
  title: "Hesitates again when hot: looked at once more",
  minutes: 50,
  grade: "bench",
};
/** Of paid jobs by word one in so many comes back, none so late that it would meet the week around today. */
const EVERY = 14;
const LATEST_BACK = -55;
const OVER: Parameters<typeof counterDays>[2] = [
  ["SCR-J4x12", 8],
  ["SCR-J4x16", 8],
  ["OR-BOWL-40", 2],
  ["OR-BOWL-36", 2],
  ["FF-6", 2],
  ["PLUG-8", 2],
  ["AF-580", 1],
  ["AF-400", 1],
  ["BF-20", 1],
  ["CLIP-N", 4],
  ["GSK-EX-38", 1],
  ["CAP-VAC", 4],
];

/** How much of the eighteen months is played: counts, and the working days from today between which they lie. */
export interface Seasons {
  readonly from: number;
  readonly to: number;
  readonly small: number;
  readonly packages: number;
  readonly sales: number;
  /** Bikes that are known beside the first ones. */
  readonly bikes: number;
  /** How the invoices of work by word end, where it is not left to the deal. */
  readonly ends?: readonly End[];
}

export const EIGHTEEN_MONTHS: Seasons = {
  from: -376,
  to: -16,
  small: 96,
  packages: 42,
  sales: 72,
  bikes: 78,
};

/** The work of the shop's seasons beside its named jobs, each a course of its own. */
export async function seasons(stage: Stage, garage: Garage, years: Seasons): Promise<Course[]> {
  const { from, to } = years;
  const days = (count: number, seed: number) =>
    busyDays(stage.calendar, chance(seed), SEASON, { from, to, count });
  await holidays(stage, years);
  return [
    ...smallJobs(days(years.small, 31), years).map((job) =>
      smallJob(stage, garage, job, { hourly: 150, step: 10 }),
    ),
    ...packageJobs(days(years.packages, 32), years).map((job) => pastJob(stage, garage, job)),
    counterDays(stage, days(years.sales, 33), OVER, 34),
    deliveries(
      stage,
      Array.from({ length: Math.floor((to - from) / 21) }, (_, at) => from + 12 + at * 21),
    ),
  ];
}

function smallJobs(days: readonly number[], { bikes, ends: told = ENDS }: Seasons): SmallJob[] {
  const deal = chance(35);
  const [works, ends] = [dealt(WORK, days.length, deal), dealt(told, days.length, deal)];
  let paid = 0;
  return days.map((day, at) => {
    const end = ends[at] ?? "paid";
    const twin = modelOf(FIRST_MORE + (at % bikes)) === "twin750";
    const work = works[at] as SmallWork;
    const known = !work.title.startsWith("Both") || twin;
    return {
      seed: 3000 + at,
      day,
      bike: FIRST_MORE + (at % bikes),
      work: known ? work : (WORK[2] as SmallWork),
      end,
      ...(end === "paid" && paid++ % EVERY === 0 && day < LATEST_BACK ? { comeback: BACK } : {}),
    };
  });
}

function packageJobs(days: readonly number[], { bikes }: Seasons): PastJob[] {
  const deal = chance(36);
  const [offers, ends] = [dealt(OFFERS, days.length, deal), dealt(ENDS, days.length, deal)];
  return days.map((day, at) => {
    // Another order than the small jobs', so that a bike's works lie apart.
    const bike = FIRST_MORE + ((at * 5 + 40) % bikes);
    const model = modelOf(bike);
    const code = model === "twin750" ? "TWIN" : model === "drover580" && at % 3 !== 0 ? "OPEN" : "RESET";
    const options: { take?: readonly string[]; leave?: readonly string[] } = deal.pick(OPTIONS[code]);
    const end = offers[at] ?? "paid";
    return {
      seed: 5000 + at,
      day,
      bike,
      package: code,
      ...options,
      end,
      rides: [],
      deposit: at % 4 === 1,
      ...(FORCED.includes(end) ? {} : { money: ends[at] ?? "paid" }),
    };
  });
}

/** Both were away for some weeks, not at the same time. */
async function holidays(stage: Stage, { from, to }: Seasons): Promise<void> {
  const { calendar, shop, staff } = stage;
  const away = [
    [staff.owner, 0.3, 15],
    [staff.tuner, 0.55, 15],
    [staff.owner, 0.8, 10],
  ] as const;
  const first = shop.as("owner", calendar.at(from - 1, "08:00"));
  for (const [staffId, share, days] of away) {
    const begin = Math.round(from + (to - from) * share);
    if (staffId === undefined || begin + days > to) continue;
    await addDaysOff(first, {
      staffId,
      fromDay: calendar.day(begin),
      toDay: calendar.day(begin + days - 1),
      why: "Holiday",
    });
  }
}
