import { cancelJob } from "@/lib/data/bookings/cancelJob";
import { finishFollowUp } from "@/lib/data/followUps/finish";
import { listFollowUps } from "@/lib/data/followUps/list";
import { creditInvoice } from "@/lib/data/invoices/credit";
import { addFinding, noteFinding } from "@/lib/data/jobs/findings";
import { getJob } from "@/lib/data/jobs/get";
import { declineQuote } from "@/lib/data/quotes/answer";
import type { Role } from "@/lib/domain/access/permissions";
import { type End, settle as settleAs } from "../seasons/settle";
import type { Stage } from "../stage";
import { arrive, bookFirst } from "../work/booking";
import { workCard } from "../work/card";
import { type Chance, chance as seeded } from "../work/chance";
import type { Course } from "../work/courses";
import { readEffects } from "../work/effects";
import type { Garage } from "../work/garage";
import { deposit, invoice, type Method, pay } from "../work/money";
import { draftQuote, orderShort, receive, sayYes, send } from "../work/quoting";
import { finish, GOOD, type Ride, rideOut } from "../work/ride";

export interface PastJob {
  readonly seed: number;
  /** Working days from today on which the quote was written; below nothing. */
  readonly day: number;
  readonly bike: number;
  readonly package: string;
  readonly take?: readonly string[];
  readonly leave?: readonly string[];
  readonly end: "paid" | "part paid" | "unpaid" | "credited" | "declined" | "no answer" | "cancelled";
  /** How its invoice ends, where that is told more closely than by `end`. */
  readonly money?: End;
  readonly rides: readonly Ride[];
  readonly deposit: boolean;
  readonly finding?: string;
  /** True where cracked vent hoses were found, quoted as a variation and agreed by phone. */
  readonly variation?: boolean;
}

/** In its first year the shop took its time by the job; since then step by step. */
const BY_STEP = -60;
const VALID_DAYS = 14;
const TIMES = ["08:40", "09:20", "10:10", "11:05", "13:15", "14:30", "15:40"];
const AFTER = ["12:10", "16:20", "18:45", "20:05"];
const NO = ["Selling the bike instead.", "Too dear this year.", "Will ride it as it is over summer."];

/** One job of the past, from its quote to its end. */
export async function* pastJob(stage: Stage, garage: Garage, plan: PastJob): Course {
  const chance = seeded(plan.seed);
  const { calendar } = stage;
  let at = calendar.at(plan.day, chance.pick(TIMES));
  yield at;
  const bikeId = await garage.bike(plan.bike, at);
  const draft = await draftQuote(stage, at, {
    bikeId,
    package: plan.package,
    take: plan.take ?? [],
    leave: plan.leave ?? [],
  });
  at = later(at, chance.between(8, 35));
  yield at;
  const out = await send(stage, at, draft);
  if (plan.end === "no answer") return;
  let answered = plan.day + chance.between(1, 3);
  // Over the turn of the year three working days may be longer than a quote is valid.
  while (calendar.day(answered) > calendar.later(calendar.day(plan.day), VALID_DAYS)) answered -= 1;
  at = calendar.at(answered, chance.pick(AFTER));
  yield at;
  if (plan.end === "declined")
    return declineQuote(stage.shop.as("desk", at), {
      id: out.id,
      version: out.version,
      reason: chance.pick(NO),
    });
  const { jobId, short } = await sayYes(
    stage,
    at,
    out,
    chance.share() < 0.7 ? "link" : chance.pick(["by phone", "at the counter"]),
  );
  if (plan.deposit)
    await deposit(
      stage,
      at,
      jobId,
      Math.round(out.grossMinor / 400) * 100,
      chance.pick(["card", "transfer"]),
    );
  let next = answered + 1;
  if (short.length > 0) {
    at = calendar.at(next, "09:05");
    yield at;
    const orders = await orderShort(stage, at, short);
    next += 5;
    at = calendar.at(next, "10:30");
    yield at;
    await receive(stage, at, orders);
  }
  at = calendar.at(next, "11:20");
  yield at;
  if (plan.end === "cancelled") {
    const job = await getJob(stage.shop.as("desk", at), jobId);
    return cancelJob(stage.shop.as("desk", at), {
      jobId,
      version: job?.version ?? 0,
      reason: "Bike was sold before the day came.",
    });
  }
  const spot = await bookFirst(
    stage,
    at,
    jobId,
    calendar.at(next + chance.between(1, 3), chance.pick(["08:00", "08:00", "09:00", "12:30"])),
  );
  at = later(spot.startsAt, -10);
  yield at;
  const odometerKm = garage.odometer(plan.bike) + garage.ridden(plan.bike, chance.between(20, 900));
  await arrive(stage, at, jobId, odometerKm);
  const reads = plan.package === "OPEN";
  const of = { jobId, bikeId, role: spot.role, seed: plan.seed + 4000 };
  if (reads) await readEffects(stage, at, of, "before");
  at = yield* workCard(stage, {
    jobId,
    role: spot.role,
    from: spot.startsAt,
    chance,
    wholeJob: plan.day < BY_STEP,
  });
  if (plan.finding) await noticed(stage, at, jobId, plan.finding);
  if (plan.variation) at = yield* extended(stage, at, { jobId, bikeId, role: spot.role, chance });
  at = yield* rideOut(stage, jobId, spot.role, at, chance, [...plan.rides, GOOD]);
  at = calendar.worked(at, 12).end;
  yield at;
  if (reads) await readEffects(stage, at, of, "after");
  await finish(stage, at, jobId, spot.role, odometerKm + 9);
  at = calendar.worked(at, chance.between(20, 90)).end;
  yield at;
  if (plan.money) yield* settleAs(stage, at, jobId, plan.money, chance);
  else yield* settle(stage, at, jobId, plan, chance);
}

interface Extended {
  readonly jobId: number;
  readonly bikeId: number;
  readonly role: Role;
  readonly chance: Chance;
}

/** Extra work found on the bench: quoted, agreed within the hour and done before the ride. */
async function* extended(
  stage: Stage,
  from: Date,
  { jobId, bikeId, role, chance }: Extended,
): AsyncGenerator<Date, Date, void> {
  await addFinding(stage.shop.as(role, from), { jobId, text: "Vent hoses cracked through: renew both." });
  const extra = {
    bikeId,
    package: "RESET",
    take: ["vents"],
    leave: ["main-round", "main-hex", "screw", "bowl"],
    variationOfId: jobId,
  };
  const quoted = stage.calendar.worked(from, 10).end;
  yield quoted;
  const out = await send(stage, quoted, await draftQuote(stage, quoted, extra));
  const agreed = stage.calendar.worked(quoted, 35).end;
  yield agreed;
  await sayYes(stage, agreed, out, "by phone");
  return yield* workCard(stage, { jobId, role, from: agreed, chance, wholeJob: true });
}

const later = (at: Date, minutes: number) => new Date(at.getTime() + minutes * 60_000);

async function noticed(stage: Stage, at: Date, jobId: number, text: string): Promise<void> {
  const shop = stage.shop.as("tuner", at);
  const { findingId } = await addFinding(shop, { jobId, text });
  await noteFinding(shop, { findingId, version: 1 });
}

async function* settle(stage: Stage, at: Date, jobId: number, plan: PastJob, chance: Chance): Course {
  const { calendar } = stage;
  const method = chance.pick<Method>(["card", "card", "transfer", "cash"]);
  let id = await invoice(
    stage,
    at,
    jobId,
    chance.share() < 0.2 && plan.day >= BY_STEP ? "asWorked" : "fixed",
  );
  if (plan.end === "unpaid") return;
  const day = calendar.dayOf(at);
  if (plan.end === "credited") {
    at = calendar.on(calendar.later(day, 1), "10:00");
    yield at;
    await creditInvoice(stage.shop.as("desk", at), {
      id,
      reason: "Invoiced as worked by mistake; the quoted price was agreed.",
    });
    id = await invoice(stage, at, jobId, "fixed");
  }
  const wait = method === "transfer" ? chance.between(2, 9) : chance.between(0, 1);
  at = calendar.on(calendar.later(calendar.dayOf(at), wait), "17:10");
  yield at;
  await pay(stage, at, id, method, plan.end === "part paid" ? 10_000 : undefined);
}

const RUNS = [
  "Runs well, no change wanted.",
  "Pulls cleaner than before; uses a little more fuel.",
  "Owner is pleased; wants the needle looked at next year.",
  "Left word twice, no answer.",
];

/** Now and then the desk rings those whose follow-up has come due. */
export async function* ringing(stage: Stage, days: readonly number[]): Course {
  const chance = seeded(77);
  for (const day of days) {
    const at = stage.calendar.at(day, "15:20");
    yield at;
    const shop = stage.shop.as("desk", at);
    const { rows } = await listFollowUps(shop, { state: "due" });
    for (const row of rows.filter((each) => each.dueNow)) {
      const outcome = chance.pick(RUNS);
      await finishFollowUp(shop, {
        id: row.id,
        version: row.version,
        state: outcome.startsWith("Left") ? "dropped" : "done",
        outcome,
      });
    }
  }
}
