"use server";
import { closeDay } from "@/lib/data/endOfDay/close";
import { moveCash } from "@/lib/data/endOfDay/moves";
import { action } from "@/lib/gate/action";
import { CloseDaySchema, MoveCashSchema } from "@/lib/schemas/endOfDay";
import { typedAmount } from "@/lib/schemas/typedAmount";

export const closeTheDay = action("day.close", CloseDaySchema, async (shop, input, call) => {
  const typed = (field: "float" | "sum" | "left" | "terminal") =>
    input[field] === "" ? null : typedAmount(input[field], shop.settings, field);
  const { day, seen, reason, terminalReason } = input;
  const id = await closeDay(shop, {
    day,
    seen,
    reason,
    terminalReason,
    floatMinor: typed("float"),
    pieces: input.way === "pieces" ? input.pieces : [],
    sumMinor: input.way === "sum" ? typedAmount(input.sum, shop.settings, "sum") : null,
    leftMinor: typed("left"),
    terminalMinor: typed("terminal"),
    key: call.key,
  });
  return { to: `/s/${shop.slug}/books/day/${id}`, toast: "The day is closed." };
});

export const moveDrawerCash = action("day.close", MoveCashSchema, async (shop, input, call) => {
  const amountMinor = typedAmount(input.amount, shop.settings);
  await moveCash(shop, {
    day: input.day,
    amountMinor: input.way === "in" ? amountMinor : 0 - amountMinor,
    reason: input.reason,
    key: call.key,
  });
  return { toast: input.way === "in" ? "Put into the drawer." : "Taken out of the drawer." };
});
