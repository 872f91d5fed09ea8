"use server";
import { keepAsPackage } from "@/lib/data/quotes/keepWork";
import {
  addPackage,
  moveWork,
  removeWork,
  writeKit,
  writeParts,
  writeText,
  writeWork,
} from "@/lib/data/quotes/works";
import { action } from "@/lib/gate/action";
import { KitOnQuoteSchema } from "@/lib/schemas/kits";
import {
  KeepWorkSchema,
  MoveWorkSchema,
  PackageWorkSchema,
  PartsWorkSchema,
  TextWorkSchema,
  WorkRefSchema,
  WrittenWorkSchema,
} from "@/lib/schemas/works";
import { screenOf } from "../shown/screen";

const quoteOf = (slug: string, id: number) => `/s/${slug}/quotes/${id}`;

export const putPackage = action(
  "quote.write",
  PackageWorkSchema,
  async (shop, input) => {
    await addPackage(shop, input);
    return { toast: "Package added." };
  },
  "typed",
  screenOf,
);

export const putWork = action("quote.write", WrittenWorkSchema, async (shop, input) => {
  await writeWork(shop, input);
  return { to: quoteOf(shop.slug, input.id), toast: `“${input.name}” is on the quote.` };
});

export const putParts = action("quote.write", PartsWorkSchema, async (shop, input) => {
  await writeParts(shop, input);
  return { to: quoteOf(shop.slug, input.id), toast: "The parts are on the quote." };
});

export const putKit = action(
  "quote.write",
  KitOnQuoteSchema,
  async (shop, input) => {
    await writeKit(shop, input);
    return { toast: "The kit is on the quote." };
  },
  "typed",
  screenOf,
);

export const putText = action("quote.write", TextWorkSchema, async (shop, input) => {
  await writeText(shop, input);
  return { to: quoteOf(shop.slug, input.id), toast: "The text is on the quote." };
});

export const takeWorkOff = action(
  "quote.write",
  WorkRefSchema,
  async (shop, input) => {
    await removeWork(shop, input);
    return { toast: "Taken off." };
  },
  "typed",
  screenOf,
);

export const moveUpOrDown = action(
  "quote.write",
  MoveWorkSchema,
  async (shop, input) => {
    await moveWork(shop, input);
    return { toast: "Moved." };
  },
  "typed",
  screenOf,
);

export const keepWork = action("package.write", KeepWorkSchema, async (shop, input, { key }) => {
  const packageId = await keepAsPackage(shop, { ...input, key });
  return { to: `/s/${shop.slug}/packages/${packageId}`, toast: "A package draft of this work." };
});
