import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopHandle } from "@/lib/db/shop";
import { MAKES_NEEDLE } from "@/lib/domain/packages/needleOption";
import { makesPart } from "@/lib/domain/packages/partOption";
import { dayIn } from "@/lib/domain/schedule/days";
import { asksCarburettor } from "@/lib/domain/sheets/afterJob";
import { settingsToMake } from "@/lib/domain/sheets/toMake";
import { scaleOf } from "@/lib/domain/sheets/typedReading";
import { zoneIn } from "../common/zone";
import { comingOf, expectedOn } from "../orders/expected";
import { LIES } from "../stock/lying";
import { shortOf } from "../stock/shortages";
import { OPEN_WAIT } from "./begun";
import { limitsOn } from "./heldTo";
import { jetName, jetsFor, storedJets } from "./jets";
import { partsOfJob } from "./madeParts";
import { needlesOfJob } from "./needles";
import { staffNames } from "./people";
import { sheetsOfJob } from "./sheets";
import { shimsInDrawer, toldSettings } from "./stepTargets";
import { openBreaks } from "./time/breaks";
import { onJobsNow } from "./time/onNow";

const CARD = {
  id: true,
  number: true,
  title: true,
  state: true,
  stopped: true,
  version: true,
  arrivedAt: true,
  odometerKm: true,
  bikeId: true,
  customer: { select: { name: true } },
  agreement: { select: { kind: true } },
  bike: {
    select: {
      plate: true,
      complaint: true,
      modelCard: { select: { make: true, model: true } },
      carburettors: { select: { position: true, label: true }, orderBy: { position: "asc" } },
    },
  },
  steps: {
    select: {
      id: true,
      position: true,
      kind: true,
      key: true,
      name: true,
      instruction: true,
      minutes: true,
      tools: true,
      cautions: true,
      makes: true,
      unsettled: true,
      state: true,
      doneAt: true,
      doneBy: true,
      reason: true,
      version: true,
      notes: {
        select: { id: true, text: true, at: true, staffId: true },
        orderBy: { id: "asc" },
        take: 50,
      },
      holdPoints: {
        select: {
          id: true,
          kind: true,
          name: true,
          unit: true,
          low: true,
          high: true,
          increment: true,
          measures: true,
          station: true,
          carburettor: true,
          passed: true,
          overrideReason: true,
          readings: {
            select: {
              id: true,
              value: true,
              inside: true,
              low: true,
              high: true,
              carburettor: true,
              at: true,
            },
            orderBy: { id: "desc" },
            take: 5,
          },
        },
        orderBy: { position: "asc" },
        take: 20,
      },
    },
    orderBy: { position: "asc" },
    take: 300,
  },
  reservations: {
    where: { state: { not: "released" } },
    select: {
      id: true,
      stepId: true,
      wantedMilli: true,
      reservedMilli: true,
      usedMilli: true,
      state: true,
      part: { select: { id: true, code: true, name: true, unit: true, bin: true, bins: LIES } },
    },
    orderBy: { id: "asc" },
    take: 200,
  },
  waits: OPEN_WAIT,
  handOvers: {
    select: { id: true, note: true, at: true, fromId: true, toId: true, takenAt: true },
    orderBy: { id: "desc" },
    take: 1,
  },
} satisfies Prisma.JobSelect;

type HoldRow = Prisma.JobGetPayload<{ select: typeof CARD }>["steps"][number]["holdPoints"][number];

export type CardView = NonNullable<Awaited<ReturnType<typeof getCard>>>;
export type CardStep = CardView["steps"][number];

/** A job's card: its steps with their hold points, parts and last readings, and whose time runs. */
export async function getCard(shop: ShopHandle, jobId: number) {
  const [row, running, names, own, breaks, on] = await Promise.all([
    shop.read.job.findUnique({ where: { id: jobId }, select: CARD }),
    shop.by.staffId === null
      ? null
      : shop.read.timeEntry.findFirst({
          where: { staffId: shop.by.staffId, endedAt: null },
          select: { id: true, jobId: true, stepId: true, startedAt: true, job: { select: { number: true } } },
          orderBy: { startedAt: "desc" },
        }),
    staffNames(shop),
    shop.by.staffId === null
      ? []
      : shop.read.timeEntry.findMany({
          where: { jobId, staffId: shop.by.staffId, endedAt: { not: null } },
          select: { startedAt: true, endedAt: true },
          orderBy: { id: "desc" },
          take: 300,
        }),
    openBreaks(shop),
    onJobsNow(shop, [jobId]),
  ]);
  if (!row) return null;
  const { steps, reservations, bike, waits, handOvers, ...job } = row;
  const [given] = handOvers;
  const [sheets, needles, described, shims, limitsOf] = await Promise.all([
    sheetsOfJob(shop.read, { id: job.id, bikeId: job.bikeId }),
    needlesOfJob(shop.read, { id: job.id, bikeId: job.bikeId }),
    partsOfJob(shop.read, { id: job.id, bikeId: job.bikeId }),
    shimsInDrawer(shop.read),
    limitsOn(shop.read, { id: job.id, bikeId: job.bikeId }),
  ]);
  const wanted = reservations.map((one) => ({ ...one, shortMilli: shortOf(one) }));
  const short = wanted.filter((one) => one.shortMilli > 0);
  const [drawer, coming, zone] = await Promise.all([
    jetsFor(
      shop.read,
      steps.flatMap((step) => (step.state === "todo" ? storedJets(step.unsettled) : [])),
    ),
    comingOf(
      shop,
      short.map((one) => one.part.id),
    ),
    zoneIn(shop.read),
  ]);
  const today = dayIn(zone, shop.now);
  const parts = wanted.map((one) => ({
    ...one,
    /** By which day what is missing will be there: null where nothing on its way reaches, "unknown" where no day is known. */
    dueOn:
      one.shortMilli > 0 ? expectedOn(coming.get(one.part.id) ?? [], job.id, one.shortMilli, today) : null,
  }));
  return {
    ...job,
    bike: {
      name: `${bike.modelCard.make} ${bike.modelCard.model}`,
      model: bike.modelCard.model,
      plate: bike.plate,
    },
    complaint: bike.complaint,
    carburettors: bike.carburettors,
    steps: steps.map(({ unsettled, holdPoints, ...step }) => ({
      ...step,
      /** Each with the limits that it is held to now, what it can be, and whether it has to say its carburettor. */
      holdPoints: holdPoints.map((hold) => ({
        ...hold,
        ...(step.state === "todo" ? limitsOf(hold, step.position) : heldThen(hold)),
        scale: scaleOf(hold),
        asksCarburettor: hold.kind === "reading" && asksCarburettor(hold, bike.carburettors.length),
      })),
      /** Jets that the step settles, each with those of its drawer that are free. */
      jets: storedJets(unsettled).map((jet) => ({
        ...jet,
        name: jetName(jet),
        free: drawer.filter(
          (part) =>
            (jet.family === "" || part.family === jet.family) &&
            part.onHandMilli - part.reservedMilli >= jet.quantityMilli,
        ),
      })),
      makes: step.makes as string[],
      tools: step.tools as string[],
      cautions: step.cautions as string[],
      settings: toldSettings(
        settingsToMake(step.makes as string[], sheets.asFound?.values ?? [], sheets.target?.values ?? []),
        sheets.target,
        shims,
      ),
      /** The needles that the step changes. */
      needles: (step.makes as string[]).includes(MAKES_NEEDLE) ? needles : [],
      /** The described parts that it leaves otherwise. */
      described: described.filter((one) => one.target && makesPart(step.makes as string[], one.kind)),
      doneByName: nameOf(names, step.doneBy),
      parts: parts.filter((one) => one.stepId === step.id),
      notes: step.notes.map((note) => ({ ...note, by: nameOf(names, note.staffId) })),
    })),
    looseParts: parts.filter((one) => one.stepId === null),
    today,
    /** What the job waits for now. */
    wait: waits[0] ?? null,
    /** Whom it was handed to last, with the giver's word, until they have begun. */
    handedOver:
      given && given.takenAt === null
        ? { ...given, from: nameOf(names, given.fromId), to: nameOf(names, given.toId) }
        : null,
    running,
    /** The person's own break, where they are on one. */
    onBreak: breaks.find((one) => one.own) ?? null,
    /** The person's time on this job before what runs now. */
    ownMs: own.reduce((sum, one) => sum + ((one.endedAt ?? shop.now).getTime() - one.startedAt.getTime()), 0),
    /** Who else is on it now, or on a break from it. */
    others: on.filter((one) => one.staffId !== shop.by.staffId),
  };
}

const nameOf = (names: ReadonlyMap<number, string>, id: number | null) =>
  id === null ? "" : (names.get(id) ?? "");

/** The limits that the newest reading was held to. */
function heldThen({ low, high, readings }: HoldRow) {
  return { low: readings[0]?.low ?? low, high: readings[0]?.high ?? high, from: "" };
}

/** The step to show: the one asked for by its position, else the first that is still to do, else the last. */
export function stepToShow(card: CardView, asked: number | null): CardStep | undefined {
  const found = asked === null ? undefined : card.steps.find((step) => step.position === asked);
  return found ?? card.steps.find((step) => step.state === "todo") ?? card.steps.at(-1);
}
