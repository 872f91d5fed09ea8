"use server";
import { leftText, useForJob } from "@/lib/data/jobs/takePart";
import { removePart } from "@/lib/data/parts/remove";
import { changePart, createPart } from "@/lib/data/parts/save";
import { measureScrew } from "@/lib/data/parts/screws";
import { approveCount } from "@/lib/data/stock/approveCounts";
import { moveBetweenBins } from "@/lib/data/stock/betweenBins";
import { countAgain, dropCount, enterCount, startCount } from "@/lib/data/stock/binCounts";
import { correctMove, momentOn } from "@/lib/data/stock/correct";
import { addToCount } from "@/lib/data/stock/countFound";
import { countPart, splitPart } from "@/lib/data/stock/counts";
import { saveJetFamily } from "@/lib/data/stock/jetFamilies";
import { recordMove } from "@/lib/data/stock/moves";
import { measurePartNeedle } from "@/lib/data/stock/needles";
import { releaseReservation, useReserved } from "@/lib/data/stock/reservations";
import { addSubstitute, dropSubstitute } from "@/lib/data/stock/shelf";
import { action } from "@/lib/gate/action";
import { RemoveRecordSchema } from "@/lib/schemas/ids";
import { JetFamilySchema } from "@/lib/schemas/jetFamilies";
import { PartNeedleSchema } from "@/lib/schemas/needles";
import { NewPartSchema, NoAlternativeSchema, PartSchema, SubstituteSchema } from "@/lib/schemas/parts";
import { quantityText } from "@/lib/schemas/quantity";
import { MeasureScrewSchema } from "@/lib/schemas/screws";
import {
  ApproveCountSchema,
  BinCountSchema,
  CountSchema,
  CountSheetSchema,
  FoundSchema,
  StartCountSchema,
} from "@/lib/schemas/stockCounts";
import {
  CorrectSchema,
  MoveBackSchema,
  MoveBetweenSchema,
  ReceiveSchema,
  ReleaseSchema,
  ReturnSchema,
  SplitSchema,
  TakeOutSchema,
  UseSchema,
} from "@/lib/schemas/stockMoves";

const partPage = (slug: string, id: number) => `/s/${slug}/stock/${id}`;

export const addPart = action("stock.write", NewPartSchema, async (shop, input, call) => {
  const id = await createPart(shop, input, call.key);
  return { to: partPage(shop.slug, id), toast: `${input.code} added.` };
});

export const savePart = action("stock.write", PartSchema, async (shop, input) => {
  await changePart(shop, input);
  return { to: partPage(shop.slug, input.id), toast: `${input.code} saved.` };
});

export const takePartOut = action("stock.write", RemoveRecordSchema, async (shop, input) => {
  await removePart(shop, input);
  return { to: `/s/${shop.slug}/stock`, toast: "Removed." };
});

export const keepScrew = action("stock.write", MeasureScrewSchema, async (shop, input) => {
  await measureScrew(shop, input);
  return { to: partPage(shop.slug, input.partId), toast: "Screw recorded." };
});

export const measureNeedleInStock = action("stock.write", PartNeedleSchema, async (shop, input) => {
  await measurePartNeedle(shop, input);
  return { to: partPage(shop.slug, input.id), toast: "Needle recorded." };
});

export const receivePart = action("stock.write", ReceiveSchema, async (shop, input, call) => {
  const { filled } = await recordMove(shop, {
    partId: input.partId,
    kind: "receipt",
    quantityMilli: input.quantity,
    unitCostE4: input.unitCost,
    bin: input.bin,
    why: input.why,
    at: await momentOn(shop, input.on),
    key: call.key,
  });
  const jobs = [...new Set(filled.map((one) => one.jobNumber))];
  return {
    toast: jobs.length ? `Received. Job ${jobs.join(", ")} waited for it and has it now.` : "Received.",
  };
});

export const usePart = action("stock.use", UseSchema, async (shop, input, call) => {
  const quantityMilli = input.quantity;
  const key = call.key;
  if (input.reservationId !== undefined) {
    // biome-ignore lint/correctness/useHookAtTopLevel: parts are used here, no React hook
    await useReserved(shop, { reservationId: input.reservationId, quantityMilli, key });
  } else if (input.jobId !== undefined) {
    // biome-ignore lint/correctness/useHookAtTopLevel: as above
    await useForJob(shop, { partId: input.partId, jobId: input.jobId, quantityMilli, key });
  } else {
    await recordMove(shop, {
      partId: input.partId,
      kind: "use",
      quantityMilli,
      bin: input.from,
      why: input.why,
      key,
    });
  }
  return { toast: `Used. ${await leftText(shop, input.partId)}` };
});

export const takeOutPart = action("stock.write", TakeOutSchema, async (shop, input, call) => {
  await recordMove(shop, {
    partId: input.partId,
    kind: input.kind,
    quantityMilli: input.quantity,
    bin: input.from,
    why: input.why,
    key: call.key,
  });
  return { toast: input.kind === "scrap" ? "Scrapped." : "Sent back." };
});

export const returnPart = action("stock.use", ReturnSchema, async (shop, input, call) => {
  await recordMove(shop, {
    partId: input.partId,
    kind: "returnToStock",
    quantityMilli: input.quantity,
    bin: input.bin,
    jobId: input.jobId,
    why: input.why,
    key: call.key,
  });
  return { toast: "Back in stock." };
});

export const putMoveRight = action("stock.write", CorrectSchema, async (shop, input, call) => {
  await correctMove(shop, {
    moveId: input.moveId,
    rightMilli: input.right,
    why: input.why,
    key: call.key,
  });
  return { toast: "Put right with a new move." };
});

export const takeCount = action("stock.write", CountSchema, async (shop, input, call) => {
  const variance = await countPart(shop, {
    partId: input.partId,
    bin: input.bin,
    countedMilli: input.counted,
    seenMilli: input.seenMilli,
    why: input.why,
    key: call.key,
  });
  return {
    to: partPage(shop.slug, input.partId),
    toast: variance === 0 ? "The bin agrees." : "Count taken into the ledger.",
  };
});

export const openAssortment = action("stock.write", SplitSchema, async (shop, input, call) => {
  await splitPart(shop, {
    partId: input.partId,
    quantityMilli: input.quantity,
    into: input.into,
    key: call.key,
  });
  return { to: partPage(shop.slug, input.partId), toast: "Opened into its parts." };
});

export const freeReserved = action("stock.write", ReleaseSchema, async (shop, input) => {
  await releaseReservation(shop, input.reservationId);
  return { toast: "Released. It is free, or went to the next job that is short." };
});

export const moveToBin = action("stock.write", MoveBetweenSchema, async (shop, input, call) => {
  const { to, version, homeBefore } = await moveBetweenBins(shop, {
    ...input,
    quantityMilli: input.quantity,
    home: input.home ? { version: input.version } : undefined,
    key: call.key,
  });
  return {
    toast: `Moved to bin ${to}.`,
    undo: {
      fields: {
        partId: String(input.partId),
        quantity: quantityText(input.quantity, "each"),
        from: to,
        to: input.from,
        version: String(version),
        ...(input.home ? { home: "true", homeBin: homeBefore } : {}),
      },
    },
  };
});

export const moveBack = action("stock.write", MoveBackSchema, async (shop, input, call) => {
  await moveBetweenBins(shop, {
    ...input,
    quantityMilli: input.quantity,
    home: input.home ? { version: input.version, bin: input.homeBin } : undefined,
    undoes: true,
    key: call.key,
  });
  return { toast: input.to ? `Back in bin ${input.to}.` : "Back where it was." };
});

export const addInstead = action("stock.write", SubstituteSchema, async (shop, input) => {
  await addSubstitute(shop, input);
  return { toast: `${input.code} does in its place.` };
});

export const dropInstead = action("stock.write", NoAlternativeSchema, async (shop, input) => {
  await dropSubstitute(shop, input);
  return { toast: "Taken off." };
});

const countPage = (slug: string, id: number) => `/s/${slug}/stock/counts/${id}`;

export const beginCount = action("stock.write", StartCountSchema, async (shop, input, call) => {
  const id = await startCount(shop, input.bin, call.key);
  return { to: countPage(shop.slug, id) };
});

export const addFound = action("stock.write", FoundSchema, async (shop, input, call) => {
  const code = await addToCount(shop, { ...input, key: call.key });
  return { toast: `${code} is on the list: enter how much of it lies there.` };
});

export const enterBinCount = action("stock.write", BinCountSchema, async (shop, input, call) => {
  const counted = Object.entries(input.counted).flatMap(([part, milli]) =>
    milli === undefined ? [] : [{ partId: Number(part), countedMilli: milli }],
  );
  await enterCount(shop, { sheetId: input.sheetId, version: input.version, counted, key: call.key });
  return { to: countPage(shop.slug, input.sheetId) };
});

export const approveBinCount = action("stock.write", ApproveCountSchema, async (shop, input, call) => {
  const moves = await approveCount(shop, { ...input, key: call.key });
  return {
    to: `/s/${shop.slug}/stock/counts`,
    toast: moves === 0 ? "Approved: the bin agreed." : `Approved: ${moves} taken into the ledger.`,
  };
});

export const countBinAgain = action("stock.write", CountSheetSchema, async (shop, input) => {
  await countAgain(shop, input);
  return { to: countPage(shop.slug, input.sheetId) };
});

export const dropBinCount = action("stock.write", CountSheetSchema, async (shop, input) => {
  await dropCount(shop, input);
  return { to: `/s/${shop.slug}/stock/counts`, toast: "Given up: nothing was changed." };
});

export const describeDrawer = action("stock.write", JetFamilySchema, async (shop, input) => {
  await saveJetFamily(shop, input);
  return { toast: "Saved." };
});
