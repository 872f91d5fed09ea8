"use server";
import {
  addAccount,
  changeAccount,
  chooseAccounts,
  removeAccount,
  saveBeginning,
} from "@/lib/data/ledger/save";
import { action } from "@/lib/gate/action";
import {
  AccountUsesSchema,
  ChangeAccountSchema,
  NewAccountSchema,
  OpeningSchema,
  openingMinor,
  RemoveAccountSchema,
} from "@/lib/schemas/ledger";

export const makeAccount = action("books.write", NewAccountSchema, async (shop, input, call) => {
  await addAccount(shop, { ...input, key: call.key });
  return { to: `/s/${shop.slug}/books/accounts`, toast: `Account ${input.code} added.` };
});

export const editAccount = action("books.write", ChangeAccountSchema, async (shop, input, call) => {
  await changeAccount(shop, { ...input, key: call.key });
  return { to: `/s/${shop.slug}/books/accounts`, toast: `Account ${input.code} saved.` };
});

export const dropAccount = action("books.write", RemoveAccountSchema, async (shop, input, call) => {
  await removeAccount(shop, { ...input, key: call.key });
  return { to: `/s/${shop.slug}/books/accounts`, toast: `Account ${input.code} removed.` };
});

export const mapAccounts = action("books.write", AccountUsesSchema, async (shop, input, call) => {
  const uses = Object.fromEntries(Object.entries(input.uses).filter(([, code]) => code !== undefined));
  await chooseAccounts(shop, { version: input.version, uses, key: call.key });
  return { toast: "Saved: the journal is written on these accounts." };
});

export const setOpening = action("books.write", OpeningSchema, async (shop, input, call) => {
  const { version, startsOn = null, yearMonth, stockToo } = input;
  const opening = Object.fromEntries(
    Object.entries(input.opening).map(([at, row]) => [
      row.code,
      openingMinor(row, `opening.${at}`, shop.settings),
    ]),
  );
  await saveBeginning(shop, {
    version,
    startsOn,
    yearMonth,
    stockToo: stockToo === "on",
    opening,
    key: call.key,
  });
  return { to: `/s/${shop.slug}/books/accounts`, toast: "Opening balances saved." };
});
