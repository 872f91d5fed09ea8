import type { PaperWords } from "@/lib/words/papers";

/** The shop's number under the tax, with what it is called; papers from before that was kept bear the number alone. */
export function sellerNumber(
  seller: { readonly taxNumber: string; readonly numberName?: string },
  words: PaperWords,
): string {
  if (!seller.taxNumber) return "";
  return [words.sellerNumber || seller.numberName, seller.taxNumber].filter(Boolean).join(" ");
}
