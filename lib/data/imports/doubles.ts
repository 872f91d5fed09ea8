import { inTurns } from "@/lib/db/giveWay";
import type { ShopHandle } from "@/lib/db/shop";
import type { Likeness } from "@/lib/domain/imports/likeness";
import type { RowsByNoun } from "@/lib/domain/imports/rowTypes";
import type { ImportNoun, ReadRow } from "@/lib/domain/imports/types";
import { fetched } from "../common/chunks";
import { KINDS, type Kind, type Looked } from "./doubleKinds";

export type DoubleChoice = "update" | "both" | "skip";

/** A row that would come in as new, and the record here that it is probably one with. */
export interface Double {
  readonly line: number;
  /** What the row says, in short. */
  readonly says: string;
  readonly why: string;
  readonly sure: boolean;
  readonly target: { readonly id: number; readonly name: string; readonly about: string };
}

type Row = ReadRow<RowsByNoun[ImportNoun]>;

/** Rows that a file's key does not know, each with the record that is most like it, if any is. Looks at all records, in turns. */
export async function findDoubles(
  shop: ShopHandle,
  noun: ImportNoun,
  rows: readonly Row[],
): Promise<Double[]> {
  if (noun === "prices") return [];
  const kind = KINDS[noun] as Kind<Row["values"], unknown>;
  const unknown = await unknownRows(shop, kind, rows);
  if (unknown.length === 0) return [];
  const here = await lookAround(shop, kind);
  const prepared = await kind.prepare(shop, unknown);
  const doubles: Double[] = [];
  for await (const row of inTurns(unknown)) {
    const looks = prepared(row);
    const near = new Set(kind.marks(looks).flatMap((mark) => here.get(mark) ?? []));
    let best: { like: Likeness; record: Looked<unknown> } | undefined;
    for (const record of near) {
      const like = kind.like(looks, record.looks);
      if (like && (!best || (like.sure && !best.like.sure))) best = { like, record };
    }
    if (best)
      doubles.push({ line: row.line, says: kind.says(row.values), ...best.like, target: best.record.shown });
  }
  return doubles;
}

async function unknownRows<R extends Row>(
  shop: ShopHandle,
  kind: Kind<R["values"], unknown>,
  rows: readonly R[],
): Promise<R[]> {
  const keys = rows.map((row) => row.key);
  const known = new Set(await fetched(keys, (some) => kind.keysAmong(shop, some)));
  const learned = await fetched(keys, (some) =>
    shop.read.knownKey.findMany({
      where: { noun: kind.noun, key: { in: some } },
      select: { key: true },
      orderBy: { key: "asc" },
    }),
  );
  for (const { key } of learned) known.add(key);
  return rows.filter((row) => !known.has(row.key));
}

const PAGE = 500;
/** A mark that many records share, as a placeholder for a phone does, tells none of them apart. */
const MOST_ALIKE = 8;

async function lookAround<L>(
  shop: ShopHandle,
  kind: Kind<Row["values"], L>,
): Promise<Map<string, Looked<L>[]>> {
  const byMark = new Map<string, Looked<L>[]>();
  for (let after = 0; ; ) {
    const page = await kind.page(shop, after, PAGE);
    for await (const record of inTurns(page))
      for (const mark of kind.marks(record.looks)) {
        const alike = byMark.get(mark) ?? [];
        byMark.set(mark, alike);
        if (alike.length < MOST_ALIKE) alike.push(record);
      }
    const last = page.at(-1);
    if (!last || page.length < PAGE) return byMark;
    after = last.shown.id;
  }
}
