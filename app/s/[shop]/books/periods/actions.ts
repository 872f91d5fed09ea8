"use server";
import { closeBooks, reopenBooks } from "@/lib/data/shop/closing";
import { action } from "@/lib/gate/action";
import { CloseBooksSchema, ReopenBooksSchema } from "@/lib/schemas/tax";

export const closePeriod = action("books.close", CloseBooksSchema, async (shop, input, { key }) => {
  await closeBooks(shop, { ...input, key });
  return { toast: "Closed. Nothing is dated in it any more." };
});

export const reopenPeriod = action("books.reopen", ReopenBooksSchema, async (shop, input, { key }) => {
  await reopenBooks(shop, { ...input, key });
  return { toast: "Reopened. Close it again when you are done." };
});
