import { shopPeople } from "@/lib/data/bookings/times";
import { takeEntries } from "@/lib/data/library/write";
import { addPackageRevision, createPackage, publishRevision } from "@/lib/data/packages/author";
import { workingTimes } from "@/lib/data/shop/hours";
import { tellEffectsOnQuotes } from "@/lib/data/shop/settings";
import { listBins, startCount } from "@/lib/data/stock/binCounts";
import type { ShopHandle } from "@/lib/db/shop";
import type { Role } from "@/lib/domain/access/permissions";
import type { Recipe } from "@/lib/domain/packages/recipe";
import { Calendar } from "./calendar";
import { JET_RESET } from "./packages/jetReset";
import { NEEDLE_WORK } from "./packages/needleWork";
import { OPEN_ROAD } from "./packages/openRoad";
import { TWIN_BALANCE } from "./packages/twinBalance";
import { photograph } from "./photos";
import { bankLines } from "./saltpan/bankLines";
import { history } from "./saltpan/history";
import { addModel, MODELS } from "./saltpan/models";
import { pastJob, ringing } from "./saltpan/past";
import { bikes, customers } from "./saltpan/people";
import { type Seasons, seasons } from "./saltpan/seasons";
import { closures, HOURS, setUpSaltpan } from "./saltpan/settings";
import { restocking, stockShelves } from "./saltpan/stock";
import { thisWeek } from "./saltpan/thisWeek";
import type { DemoShop, Stage } from "./stage";
import { chance } from "./work/chance";
import { playCourses } from "./work/courses";
import { Garage } from "./work/garage";

const PAST_JOBS = 29;
const MONTHLY = Array.from({ length: 11 }, (_, at) => -350 + at * 33);

/** How much of its past is played; the seasons only where they are asked for. */
export interface SaltpanPast {
  readonly pastJobs?: number;
  readonly monthly?: readonly number[];
  readonly years?: Seasons | undefined;
  /** False leaves out the days around today. */
  readonly around?: boolean;
}

/** Two bays in a dry inland town: settings, shelves, packages, eighteen months of work and a full week. */
export async function buildSaltpan(
  shop: DemoShop,
  now: Date,
  opened: Date,
  { pastJobs = PAST_JOBS, monthly = MONTHLY, around = true, years }: SaltpanPast = {},
): Promise<void> {
  const first = shop.as("owner", opened);
  await setUpSaltpan(first, now);
  const cards = new Map<(typeof MODELS)[number]["key"], number>();
  for (const model of MODELS) cards.set(model.key, await addModel(first, model));
  await stockShelves(first, chance(4));
  await photograph(first, { noun: "part", nounId: 1 }, "needle", "Five grooves, the clip in the third");
  await tellEffectsOnQuotes(first, true);
  await takeEntries(first, { entries: [], all: "yes" });
  const packages = {
    OPEN: await publish(
      first,
      "OPEN",
      "Open-road breathing",
      "Airbox, jet, needle and slide for big singles that ride far.",
      OPEN_ROAD,
    ),
    RESET: await publish(
      first,
      "RESET",
      "Jet and screw reset",
      "Any single, set to the height and season you ride in.",
      JET_RESET,
    ),
    TWIN: await publish(
      first,
      "TWIN",
      "Twin balance and jets",
      "Two carburettors made alike and balanced by vacuum.",
      TWIN_BALANCE,
    ),
    NEEDLE: await publish(
      first,
      "NEEDLE",
      "Needle eased and shimmed",
      "The needle alone, measured, eased and set by shims: the airbox stays.",
      NEEDLE_WORK,
    ),
  };
  const { bays } = await shopPeople(first);
  const stage: Stage = {
    shop,
    calendar: new Calendar("Australia/Adelaide", HOURS, closures(now), now),
    now,
    bays: bays.map((bay) => bay.id),
    staff: await staffByRole(first),
    packages,
    tongue: "en",
    hands: { floor: "tuner", desk: "desk" },
  };
  const garage = new Garage(
    stage,
    customers(chance(11), years?.bikes),
    bikes(MODELS, cards, chance(12), years?.bikes),
  );
  await playCourses(
    [
      ...history(pastJobs).map((plan) => pastJob(stage, garage, plan)),
      ...(around ? thisWeek(stage, garage) : []),
      ...(years ? await seasons(stage, garage, years) : []),
      restocking(stage, monthly),
      ringing(stage, monthly),
    ],
    now,
  );
  await bankLines(shop.as("owner", now), stage.calendar.dayOf(now));
  // The tuner has begun to count a bin this morning.
  const floor = shop.as("tuner", now);
  const [bin] = (await listBins(floor)).rows;
  if (bin) await startCount(floor, bin.bin);
}

/** A package written, checked and published. */
export async function publish(
  shop: ShopHandle,
  code: string,
  name: string,
  summary: string,
  recipe: Recipe,
): Promise<number> {
  const packageId = await createPackage(shop, { code, name, summary });
  const { id } = await addPackageRevision(shop, { packageId, recipe });
  await publishRevision(shop, { revisionId: id, version: 1 });
  return packageId;
}

/** Those who work on bikes, by their place in the shop: the owner was there first, the tuner came after. */
export async function staffByRole(shop: ShopHandle): Promise<Partial<Record<Role, number>>> {
  const { people } = await shopPeople(shop);
  const { staff } = await workingTimes(shop, "9999-12-31");
  const working = staff.filter((one) => people.some((each) => each.id === one.id));
  const [owner, tuner] = working;
  return { ...(owner ? { owner: owner.id } : {}), ...(tuner ? { tuner: tuner.id } : {}) };
}
