import { nextNumber } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import type { Recipe } from "@/lib/domain/packages/recipe";

const RECIPE: Recipe = {
  format: "throttlewright-recipe",
  version: 2,
  groups: [{ key: "jets", name: "Jets", choose: "any" }],
  options: [
    {
      key: "main",
      group: "jets",
      name: "Main jet",
      plain: "A main jet to suit the air.",
      operations: ["fit-main"],
      parts: [{ kind: "jet", setting: "mainJet", family: "Large round main", quantityMilli: 1000 }],
      changes: [{ setting: "mainJet", change: "computed" }],
      cautions: [],
      preset: true,
      roadUse: false,
    },
  ],
  operations: [
    {
      key: "fit-main",
      name: "Fit the main jet",
      instruction: "Stop as soon as the jet seats: brass threads strip easily.",
      minutes: 12,
      grade: "workshop",
      accesses: ["bowl"],
      after: [],
      parts: [],
      holdPoints: [],
      inspects: [],
      cautions: ["Fuel. No flame, no sparks."],
      tools: ["JIS no. 2"],
    },
  ],
  accesses: [
    {
      key: "tilt",
      name: "Carburettor tilted left",
      openMinutes: 15,
      closeMinutes: 12,
      needs: [],
      excludes: [],
      closingChecks: ["Vent hoses on"],
      cautions: [],
      tools: [],
    },
    {
      key: "bowl",
      name: "Bowl off",
      openMinutes: 6,
      closeMinutes: 6,
      needs: ["tilt"],
      excludes: [],
      closingChecks: ["O-ring seated"],
      cautions: [],
      tools: ["JIS no. 2"],
    },
  ],
  rules: [],
};

const TARGET = [
  { carburettor: 1, setting: "mainJet", value: 142.5, how: "computed" },
  { carburettor: 1, setting: "clipPosition", value: 3, how: "computed" },
  { carburettor: 1, setting: "mixtureScrewTurns", value: 2.25, how: "computed" },
  { carburettor: 1, setting: "idleSpeedRpm", value: 1400, how: "computed" },
] as const;

export interface MadeJob {
  readonly id: number;
  readonly bikeId: number;
  readonly customerId: number;
  readonly steps: readonly number[];
  /** Hold points: reading of step 2, then the check of step 3. */
  readonly reading: number;
  readonly check: number;
}

/** A job of four steps (open, an operation held by a reading, close with a check, the ride), written as acceptance writes it. */
export async function makeJob(shop: ShopHandle, arrived = true): Promise<MadeJob> {
  return shop.write(async (tx) => {
    const customer = await tx.customer.create({
      data: { name: "Oda Fenn", phone: "555 0142", searchKey: "oda fenn", createdAt: shop.now },
    });
    const sequence = await nextNumber(tx, "job", 601);
    const number = String(sequence);
    const card = await tx.modelCard.create({
      data: {
        make: "Tarrant",
        model: `Drover 580 ${number}`,
        displacementCc: 578,
        carburettorType: "constant vacuum",
        searchKey: "tarrant",
        createdAt: shop.now,
      },
    });
    const bike = await tx.bike.create({
      data: {
        customerId: customer.id,
        modelCardId: card.id,
        searchKey: "tx",
        createdAt: shop.now,
        carburettors: { create: { position: 1, label: "single" } },
      },
    });
    const pack = await tx.package.create({
      data: {
        code: `jets-${number}`,
        name: "Jets",
        revisions: {
          create: { number: 1, state: "published", recipe: RECIPE as object, createdAt: shop.now },
        },
      },
      include: { revisions: true },
    });
    const ofQuotes = await nextNumber(tx, "quote", 1001);
    const quote = await tx.quote.create({
      data: {
        number: String(ofQuotes),
        sequence: ofQuotes,
        customerId: customer.id,
        bikeId: bike.id,
        title: "Jets",
        state: "accepted",
        validUntil: "2026-12-24",
        searchKey: "jets",
        createdAt: shop.now,
        revisions: {
          create: {
            number: 1,
            works: {
              create: { position: 1, kind: "package", packageRevisionId: pack.revisions[0]?.id ?? 0 },
            },
            choices: ["main"],
            conditions: {},
            createdAt: shop.now,
          },
        },
      },
      include: { revisions: true },
    });
    const common = {
      minutes: 10,
      tools: ["JIS no. 2"],
      cautions: ["Diaphragm. A nick stops the slide rising."],
    };
    const job = await tx.job.create({
      data: {
        number,
        sequence,
        customerId: customer.id,
        bikeId: bike.id,
        revisionId: quote.revisions[0]?.id ?? 0,
        title: "Jets",
        minutes: 60,
        arrivedAt: arrived ? shop.now : null,
        searchKey: `${number} oda fenn tarrant`,
        createdAt: shop.now,
        steps: {
          create: [
            { ...common, position: 1, kind: "open", key: "bowl", name: "Take off: bowl", access: "Bowl off" },
            {
              ...common,
              position: 2,
              kind: "operation",
              key: "seat",
              name: "Needle seat height",
              holdPoints: {
                create: {
                  position: 1,
                  kind: "reading",
                  name: "Seat height",
                  unit: "mm",
                  low: 3,
                  high: 3.3,
                  increment: 0.05,
                },
              },
            },
            {
              ...common,
              position: 3,
              kind: "close",
              key: "bowl",
              name: "Put back: bowl",
              access: "Bowl off",
              holdPoints: { create: { position: 1, kind: "check", name: "O-ring seated" } },
            },
            { ...common, position: 4, kind: "ride", key: "ride", name: "Test ride" },
          ],
        },
        sheets: {
          create: { bikeId: bike.id, kind: "target", takenAt: shop.now, values: { create: [...TARGET] } },
        },
      },
      select: {
        id: true,
        steps: { select: { id: true, holdPoints: { select: { id: true } } }, orderBy: { position: "asc" } },
      },
    });
    const hold = (step: number) => job.steps[step]?.holdPoints[0]?.id ?? 0;
    return {
      id: job.id,
      bikeId: bike.id,
      customerId: customer.id,
      steps: job.steps.map((step) => step.id),
      reading: hold(1),
      check: hold(2),
    };
  });
}

export async function jobNow(shop: ShopHandle, id: number) {
  return shop.read.job.findUniqueOrThrow({
    where: { id },
    select: {
      state: true,
      version: true,
      stopped: true,
      steps: {
        select: { id: true, kind: true, name: true, state: true, version: true },
        orderBy: { position: "asc" },
      },
    },
  });
}
