import { countedCash } from "@/lib/domain/endOfDay/drawer";
import { parseMoney } from "@/lib/domain/money/parse";

/** What a count comes to as it is typed. */
export interface TypedCount {
  readonly way: string;
  readonly floatMinor: number;
  readonly sumMinor: number;
  readonly pieces: ReadonlyMap<number, number>;
  readonly piecesMinor: number;
}

export const NOTHING_TYPED: TypedCount = {
  way: "",
  floatMinor: 0,
  sumMinor: 0,
  pieces: new Map(),
  piecesMinor: 0,
};

/** What stands in the fields of a count so far; what is no amount yet counts as nothing. */
export function readCount(data: FormData, book: { currency: string; locale: string }): TypedCount {
  const amount = (name: string): number => {
    const text = data.get(name);
    if (typeof text !== "string" || text.trim() === "") return 0;
    try {
      return parseMoney(text, book.currency, book.locale);
    } catch {
      // Not an amount yet: what is wrong with it is said once it is sent.
      return 0;
    }
  };
  const pieces = new Map(
    [...data.entries()].flatMap(([name, value]): [number, number][] =>
      name.startsWith("pieces.") && typeof value === "string" && /^\d{1,5}$/.test(value.trim())
        ? [[Number(name.slice(7)), Number(value)]]
        : [],
    ),
  );
  return {
    way: String(data.get("way") ?? ""),
    floatMinor: amount("float"),
    sumMinor: amount("sum"),
    pieces,
    piecesMinor: countedCash([...pieces].map(([valueMinor, many]) => ({ valueMinor, pieces: many }))),
  };
}
