import { shopPeople } from "@/lib/data/bookings/times";
import { addDaysOff } from "@/lib/data/shop/hours";
import { USUAL_HOURS } from "@/lib/data/shop/prepare";
import { Calendar } from "./calendar";
import { writeInEnglish } from "./fjellrev/english";
import { FIRST_MORE, northernBikes, northernCustomers } from "./fjellrev/people";
import { type NorthernSeasons, northernSeasons, offered } from "./fjellrev/seasons";
import { northernCard, setUpFjellrev } from "./fjellrev/shelves";
import { HOYDE } from "./packages/hoyde";
import { photograph } from "./photos";
import { publish, staffByRole } from "./saltpan";
import { type DemoModel, MODELS } from "./saltpan/models";
import { closures } from "./saltpan/settings";
import type { DemoShop, Stage } from "./stage";
import { arrive, bookFirst } from "./work/booking";
import { workCard } from "./work/card";
import { chance } from "./work/chance";
import { type Course, playCourses } from "./work/courses";
import { Garage } from "./work/garage";
import { invoice, pay } from "./work/money";
import { draftQuote, orderShort, receive, sayYes, send } from "./work/quoting";
import { finish, GOOD, rideOut } from "./work/ride";

type End = "draft" | "sent" | "waiting" | "booked" | "in work" | "ready" | "unpaid" | "paid";

interface Job {
  readonly bike: number;
  readonly day: number;
  readonly end: End;
  readonly take?: readonly string[];
}

const JOBS: readonly Job[] = [
  { bike: 3, day: -190, end: "paid" },
  { bike: 1, day: -120, end: "paid", take: ["luftfilter"] },
  { bike: 0, day: -75, end: "paid" },
  { bike: 7, day: -40, end: "paid" },
  { bike: 5, day: -24, end: "unpaid" },
  { bike: 4, day: -9, end: "ready" },
  { bike: 2, day: -8, end: "in work", take: ["luftfilter"] },
  { bike: 9, day: -4, end: "booked" },
  { bike: 6, day: -3, end: "waiting", take: ["luftfilter"] },
  { bike: 8, day: -4, end: "sent" },
  { bike: 10, day: -1, end: "draft" },
  { bike: 11, day: -26, end: "sent" },
];

/** Working days from the quote to the day in the bay, and the time of that day, where it matters. */
const LEAD: Partial<Record<End, number>> = { "in work": 7, ready: 7, booked: 4 };
const TIMES: Partial<Record<End, string>> = { ready: "12:30", booked: "10:30" };

/** One bay high in a valley, prices without tax, everything in Norwegian. */
export async function buildFjellrev(
  shop: DemoShop,
  now: Date,
  opened: Date,
  { around = true, years }: { around?: boolean; years?: NorthernSeasons | undefined } = {},
): Promise<void> {
  const first = shop.as("owner", opened);
  await setUpFjellrev(first);
  const off = closures(now);
  for (const { fromDay, toDay } of off)
    await addDaysOff(first, { staffId: null, fromDay, toDay, why: "Juleferie" });
  const cards = new Map<DemoModel["key"], number>();
  for (const model of MODELS.filter((each) => each.key !== "twin750"))
    cards.set(model.key, await northernCard(first, model));
  await photograph(first, { noun: "part", nounId: 1 }, "rings", "Ny til venstre, slitt til høyre");
  const packages = {
    HOYDE: await publish(
      first,
      "HOYDE",
      "Høydejustering",
      "For encylindrede sykler som bor på fjellet.",
      HOYDE,
    ),
  };
  const { bays } = await shopPeople(first);
  await writeInEnglish(first, packages.HOYDE);
  const stage: Stage = {
    shop,
    calendar: new Calendar("Europe/Oslo", USUAL_HOURS, off, now),
    now,
    bays: bays.map((bay) => bay.id),
    staff: await staffByRole(first),
    packages,
    tongue: "nb",
    hands: { floor: "owner", desk: "owner" },
  };
  const garage = new Garage(
    stage,
    northernCustomers(years?.bikes),
    northernBikes(MODELS, cards, years?.bikes),
  );
  await playCourses(
    [
      ...(around ? JOBS : []).map((job) => course(stage, garage, job)),
      ...(years ? northernSeasons(stage, garage, years) : []),
      ...(years ? offered(stage, years) : []).map((job) => course(stage, garage, job)),
    ],
    now,
  );
}

async function* course(stage: Stage, garage: Garage, job: Job): Course {
  const { calendar } = stage;
  const luck = chance(900 + job.bike + (job.bike < FIRST_MORE ? 0 : -job.day));
  let at = calendar.at(job.day, "09:10");
  yield at;
  const bikeId = await garage.bike(job.bike, at);
  const draft = await draftQuote(stage, at, { bikeId, package: "HOYDE", take: job.take ?? [] });
  if (job.end === "draft") return;
  at = calendar.at(job.day, "09:35");
  yield at;
  const out = await send(stage, at, draft);
  if (job.end === "sent") return;
  at = calendar.at(job.day + 1, "08:20");
  yield at;
  const { jobId, short } = await sayYes(stage, at, out, job.bike % 2 === 0 ? "link" : "på telefon");
  const orders = short.length > 0 ? await orderShort(stage, at, short) : [];
  if (job.end === "waiting") return;
  at = calendar.at(job.day + 1, "08:40");
  yield at;
  const late = orders.length > 0 && job.end === "paid" ? 4 : 0;
  if (late > 0) {
    at = calendar.at(job.day + late, "10:15");
    yield at;
    await receive(stage, at, orders);
  }
  const lead = late + (LEAD[job.end] ?? 3);
  const spot = await bookFirst(stage, at, jobId, calendar.at(job.day + lead, TIMES[job.end] ?? "08:00"));
  if (job.end === "booked") return;
  at = new Date(spot.startsAt.getTime() - 10 * 60_000);
  yield at;
  const odometerKm = garage.odometer(job.bike) + garage.ridden(job.bike, 60);
  await arrive(stage, at, jobId, odometerKm);
  const shift = { jobId, role: spot.role, from: spot.startsAt, chance: luck };
  at = yield* workCard(stage, job.end === "in work" ? { ...shift, steps: 5 } : shift);
  if (job.end === "in work") return;
  at = yield* rideOut(stage, jobId, spot.role, at, luck, [
    { ...GOOD, note: "Drar rent hele veien. Jevn tomgang." },
  ]);
  at = new Date(at.getTime() + 8 * 60_000);
  yield at;
  await finish(stage, at, jobId, spot.role, odometerKm + 7);
  if (job.end === "ready") return;
  at = new Date(at.getTime() + 12 * 60_000);
  yield at;
  const id = await invoice(stage, at, jobId);
  if (job.end === "unpaid") return;
  at = calendar.on(calendar.later(calendar.dayOf(at), luck.between(0, 12)), "18:00");
  yield at;
  await pay(stage, at, id, luck.pick(["card", "transfer"]));
}
