import type { CreditableLine } from "@/lib/domain/invoices/creditable";
import type { CreditAsk, LineAsk } from "@/lib/domain/invoices/creditLines";
import { Refusal } from "@/lib/domain/refusal";
import type { TypedCreditLine } from "./credits";
import { milliOf } from "./quantity";
import { typedAmount } from "./typedAmount";

/** What becomes of a part that is credited. */
export const FATES = ["back", "scrapped", "stays"] as const;
export const FATE_WORDS = {
  back: "Back in the drawer",
  scrapped: "Scrapped",
  stays: "Stays with the customer",
} as const;

/** A line as it can be credited, and whether its part came out of stock. */
export type AskedLine = Pick<CreditableLine, "line" | "leftMilli" | "leftMinor"> & {
  readonly part: object | null;
};

const MINUTES = 60;
const MILLI = 1000;

/** Labour is typed in minutes, all else in its own unit. */
export const isLabour = ({ line }: Pick<AskedLine, "line">): boolean =>
  line.kind === "labour" && line.unit === "h";

/** What is left of labour, in minutes. */
export const minutesLeft = ({ leftMilli }: Pick<AskedLine, "leftMilli">): number =>
  Math.round((leftMilli * MINUTES) / MILLI);

/** What was typed, as it is asked of the invoice. `fates` by the lines' keys. Throws Refusal with what is wrong at its field. */
export function typedCredit(
  input: { readonly lines: readonly TypedCreditLine[]; readonly whole: string },
  left: readonly AskedLine[],
  book: { readonly currency: string; readonly locale: string },
): { readonly ask: CreditAsk; readonly fates: Readonly<Record<string, (typeof FATES)[number]>> } {
  const asks: LineAsk[] = [];
  const fates: Record<string, (typeof FATES)[number]> = {};
  for (const [at, one] of input.lines.entries()) {
    const { key, quantity, amount, fate } = one;
    if (quantity === "" && amount === "") continue;
    const field = (name: string) => `lines.${at}.${name}`;
    const line = left.find((own) => own.line.key === key);
    if (!line) throw new Refusal("A line is gone from the invoice.", "Open the page again.", {}, "conflict");
    const { name } = line.line;
    if (quantity !== "" && amount !== "")
      throw new Refusal(`“${name}” has a quantity and an amount.`, "Enter one of them.", {
        [field("amount")]: "Enter one of the two.",
      });
    if (amount !== "") {
      asks.push({ key, amountMinor: typedAmount(amount, book, field("amount")) });
      continue;
    }
    asks.push({ key, quantityMilli: quantityOf(quantity, line, field("quantity")) });
    if (line.part && fate === undefined)
      throw new Refusal(`What becomes of “${name}”?`, "Say where the part is now.", {
        [field("fate")]: "Choose where it is now.",
      });
    if (fate) fates[key] = fate;
  }
  if (input.whole === "") return { ask: { lines: asks }, fates };
  if (asks.length > 0)
    throw new Refusal(
      "An amount off the whole stands beside lines.",
      "Credit one or the other; a second credit note can follow.",
      { whole: "Empty this, or the lines." },
    );
  return { ask: { wholeMinor: typedAmount(input.whole, book, "whole") }, fates };
}

function quantityOf(text: string, line: AskedLine, field: string): number {
  const milli = milliOf(text);
  if (milli === null || milli <= 0)
    throw new Refusal(`“${text}” is no quantity.`, "Enter a number above 0, such as 3 or 12.5.", {
      [field]: "Enter a number above 0.",
    });
  if (!isLabour(line)) return milli;
  return milli === minutesLeft(line) * MILLI ? line.leftMilli : Math.round(milli / MINUTES);
}
