import { counterDays } from "../seasons/counterDays";
import { busyDays, type Season } from "../seasons/days";
import { deliveries } from "../seasons/deliveries";
import { dealt } from "../seasons/people";
import type { End } from "../seasons/settle";
import { type SmallWork, smallJob } from "../seasons/smallJob";
import type { Stage } from "../stage";
import { chance } from "../work/chance";
import type { Course } from "../work/courses";
import type { Garage } from "../work/garage";
import { FIRST_MORE } from "./people";

/** Snow lies until April: everybody comes at once then. */
const SEASON: Season = [0.2, 0.3, 0.7, 1.5, 1.9, 1.7, 1.1, 1.0, 0.8, 0.5, 0.3, 0.2];

const WORK: readonly SmallWork[] = [
  { title: "Forgasser renset og satt sammen", minutes: 240, grade: "workshop", parts: [["OR-40", "1"]] },
  { title: "Flottørhøyde og tomgang stilt", minutes: 70, grade: "workshop" },
  { title: "Vekket etter vinteren: tank, slanger, forgasser", minutes: 390, grade: "workshop" },
  { title: "Bensinslange byttet", minutes: 45, grade: "workshop", parts: [["SLANGE-6", "500"]] },
  { title: "Luftlekkasje funnet og tettet", minutes: 130, grade: "workshop" },
  { title: "Luftfilter og tennplugg før langtur", minutes: 60, grade: "workshop", parts: [["LF-400", "1"]] },
  { title: "Spjeldaksel og foringer fornyet", minutes: 660, grade: "workshop" },
];
const ENDS: readonly End[] = [
  ...Array.from({ length: 12 }, (): End => "paid"),
  "late",
  "late",
  "late",
  "in parts",
  "unpaid",
  "written off",
  "credited in part",
  "refunded",
];
const BACK: SmallWork = {
  title: "Nøler igjen når den er varm: sett på en gang til",
  minutes: 40,
  grade: "workshop",
};
/** None comes back so late that it would meet the week around today. */
const LATEST_BACK = -55;
const OVER: Parameters<typeof counterDays>[2] = [
  ["OR-40", 2],
  ["SKR-J4", 8],
  ["LF-400", 1],
];

export interface NorthernSeasons {
  readonly from: number;
  readonly to: number;
  readonly small: number;
  readonly packages: number;
  readonly sales: number;
  readonly bikes: number;
}

export const EIGHTEEN_MONTHS: NorthernSeasons = {
  from: -376,
  to: -30,
  small: 44,
  packages: 20,
  sales: 24,
  bikes: 30,
};

/** A package that was quoted in one of the seasons. */
export interface Offered {
  readonly bike: number;
  readonly day: number;
  readonly end: "paid" | "unpaid" | "sent";
  readonly take?: readonly string[];
}

export function offered(stage: Stage, { from, to, packages, bikes }: NorthernSeasons): Offered[] {
  const days = busyDays(stage.calendar, chance(61), SEASON, { from, to, count: packages });
  return days.map((day, at) => ({
    bike: FIRST_MORE + ((at * 7 + 11) % bikes),
    day,
    end: at % 6 === 4 ? "sent" : "paid",
    ...(at % 3 === 1 ? { take: ["luftfilter"] } : {}),
  }));
}

/** Work by word, the counter and the deliveries of the seasons. */
export function northernSeasons(stage: Stage, garage: Garage, years: NorthernSeasons): Course[] {
  const { from, to, small, sales, bikes } = years;
  const days = (count: number, seed: number) =>
    busyDays(stage.calendar, chance(seed), SEASON, { from, to, count });
  const deal = chance(65);
  const [works, ends] = [dealt(WORK, small, deal), dealt(ENDS, small, deal)];
  const jobs = days(small, 62).map((day, at) => ({
    seed: 7000 + at,
    day,
    bike: FIRST_MORE + (at % bikes),
    work: works[at] as SmallWork,
    end: ends[at] ?? ("paid" as const),
    ...(ends[at] === "paid" && at % 9 === 3 && day < LATEST_BACK ? { comeback: BACK } : {}),
  }));
  return [
    ...jobs.map((job) => smallJob(stage, garage, job, { hourly: 1250, step: 100 })),
    counterDays(stage, days(sales, 63), OVER, 64),
    deliveries(
      stage,
      Array.from({ length: Math.floor((to - from) / 42) }, (_, at) => from + 20 + at * 42),
    ),
  ];
}
