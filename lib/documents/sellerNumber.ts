import { markedNumber } from "@/lib/domain/tax/sellerNumber";
import type { PaperWords } from "@/lib/words/papers";

/** Who the number is of, as papers keep it: those from before its name or its marks were kept have none. */
export interface NumberedSeller {
  readonly taxNumber: string;
  readonly numberName?: string;
  readonly numberMarks?: readonly string[];
}

/** The shop's number with what it is called and what the law wants after it; empty where it has none. */
export function sellerNumber(seller: NumberedSeller, words: PaperWords): string {
  const number = markedNumber(seller.taxNumber, seller.numberName ?? "", seller.numberMarks ?? []);
  return number ? [numberName(seller, words), number].filter(Boolean).join(" ") : "";
}

/** What that number is called in a paper's language. */
const numberName = ({ numberName: name }: NumberedSeller, words: PaperWords): string =>
  name === undefined ? words.sellerNumber : (words.numberNames[name] ?? name);
