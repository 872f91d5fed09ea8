"use server";
import { bookLine, bookLines } from "@/lib/data/bank/book";
import { reopenLine, setAside } from "@/lib/data/bank/decide";
import { previewBankList, takeBankListIn } from "@/lib/data/bank/takeIn";
import { action } from "@/lib/gate/action";
import {
  BankListSchema,
  BookLineSchema,
  BookLinesSchema,
  ReopenSchema,
  SetAsideSchema,
  SplitLineSchema,
  typedSplit,
} from "@/lib/schemas/bank";

const lines = (count: number) => `${count} ${count === 1 ? "line" : "lines"}`;

/** Reads a bank's list and tells what it would bring. Writes nothing. */
export const checkList = action(
  "payment.write",
  BankListSchema,
  async (shop, input) => ({ shown: { view: JSON.stringify(await previewBankList(shop, input)) } }),
  "file",
);

export const takeListIn = action(
  "payment.write",
  BankListSchema,
  async (shop, input, call) => {
    const { added } = await takeBankListIn(shop, input, call.key);
    return { to: `/s/${shop.slug}/invoices/bank`, toast: `${lines(added)} taken in. Nothing is booked yet.` };
  },
  "file",
);

/** So that the toast can take it back: the line as it is once it was decided. */
const undo = ({ id, version }: { id: number; version: number }) => ({
  fields: { id: String(id), version: String(version + 1) },
});

export const book = action("payment.write", BookLineSchema, async (shop, input, call) => {
  await bookLine(shop, { ...input, key: call.key });
  return { toast: "Booked.", undo: undo(input) };
});

export const bookAll = action("payment.write", BookLinesSchema, async (shop, input, call) => {
  const { booked, refused } = await bookLines(shop, { lines: input.lines, key: call.key });
  const not = refused.length > 0 ? ` ${lines(refused.length)} could not be: ${refused[0]?.why}` : "";
  return { toast: `${lines(booked)} booked.${not}` };
});

export const split = action("payment.write", SplitLineSchema, async (shop, input, call) => {
  const { id, version, customerId } = input;
  await bookLine(shop, { id, version, customerId, takes: typedSplit(input, shop.settings), key: call.key });
  return { to: `/s/${shop.slug}/invoices/bank`, toast: "Booked." };
});

export const putAside = action("payment.write", SetAsideSchema, async (shop, input, call) => {
  await setAside(shop, { ...input, key: call.key });
  return { to: `/s/${shop.slug}/invoices/bank`, toast: "Set aside." };
});

export const reopen = action("payment.write", ReopenSchema, async (shop, input, call) => {
  await reopenLine(shop, { ...input, key: call.key });
  return { toast: "It waits again. What it had paid is due again." };
});
