import type { ShopHandle } from "@/lib/db/shop";
import { binText } from "@/lib/domain/stock/bins";

type Facts = Awaited<ReturnType<typeof factsOf>>;

/**
 * What must hold of the stock: a part's on hand is what its moves and what its bins add up to, each bin says what its moves do, moves
 * between bins come to nothing, and what is reserved is there or on order. A sentence for each thing that does not hold.
 */
export async function stockProblems(shop: ShopHandle): Promise<string[]> {
  const facts = await factsOf(shop);
  return [...ofParts(facts), ...ofBins(facts)];
}

/** All of one moment; the moves, of which there are most, are walked once. */
async function factsOf(shop: ShopHandle) {
  const [parts, bins, held, moved] = await Promise.all([
    shop.read.part.findMany({
      select: { id: true, code: true, onHandMilli: true, reservedMilli: true, onOrderMilli: true },
      orderBy: { id: "asc" },
    }),
    shop.read.partBin.findMany({
      select: { partId: true, bin: true, onHandMilli: true },
      orderBy: { id: "asc" },
    }),
    shop.read.reservation.groupBy({
      by: ["partId"],
      where: { state: "held" },
      _sum: { reservedMilli: true },
    }),
    shop.read.move.groupBy({
      by: ["partId", "bin", "kind"],
      _sum: { quantityMilli: true },
      orderBy: [{ partId: "asc" }, { bin: "asc" }, { kind: "asc" }],
    }),
  ]);
  const moves = moved.map(({ _sum, ...row }) => ({ ...row, milli: _sum.quantityMilli ?? 0 }));
  return { parts, bins, held, moves };
}

/** Sums by a key, in the order in which the keys first come. */
function added<R, K>(rows: readonly R[], key: (row: R) => K, milli: (row: R) => number): Map<K, number> {
  const sums = new Map<K, number>();
  for (const row of rows) sums.set(key(row), (sums.get(key(row)) ?? 0) + milli(row));
  return sums;
}

const byPart = (row: { readonly partId: number }) => row.partId;

function ofParts({ parts, moves, held }: Facts): string[] {
  const onHand = added(moves, byPart, (row) => row.milli);
  const reservations = added(held, byPart, (row) => row._sum.reservedMilli ?? 0);
  return parts.flatMap((part) => {
    const sum = onHand.get(part.id) ?? 0;
    const reserved = reservations.get(part.id) ?? 0;
    return [
      ...(part.onHandMilli === sum
        ? []
        : [`${part.code}: on hand says ${part.onHandMilli}, its moves add up to ${sum}.`]),
      ...(part.onHandMilli < 0 ? [`${part.code}: on hand is below zero.`] : []),
      ...(part.reservedMilli === reserved
        ? []
        : [`${part.code}: reserved says ${part.reservedMilli}, its reservations ${reserved}.`]),
      ...(part.reservedMilli > part.onHandMilli + part.onOrderMilli
        ? [`${part.code}: more is reserved than there is.`]
        : []),
    ];
  });
}

function ofBins({ parts, bins, moves }: Facts): string[] {
  const key = (row: { partId: number; bin: string }) => JSON.stringify([row.partId, row.bin]);
  const code = new Map(parts.map((part) => [part.id, part.code]));
  const said = new Map(bins.map((row) => [key(row), row.onHandMilli]));
  const sums = added(moves, key, (row) => row.milli);
  const unsaid = new Map(moves.filter((row) => !said.has(key(row))).map((row) => [key(row), row]));
  const whole = added(bins, byPart, (row) => row.onHandMilli);
  const between = added(
    moves.filter((row) => row.kind === "betweenBins"),
    byPart,
    (row) => row.milli,
  );
  return [
    ...[...bins, ...unsaid.values()].flatMap((row) => {
      const [says, sum] = [said.get(key(row)) ?? 0, sums.get(key(row)) ?? 0];
      return says === sum
        ? []
        : [`${code.get(row.partId)}: ${binText(row.bin)} says ${says}, its moves add up to ${sum}.`];
    }),
    ...bins
      .filter((row) => row.onHandMilli < 0)
      .map((row) => `${code.get(row.partId)}: ${binText(row.bin)} is below zero.`),
    ...parts
      .filter((part) => part.onHandMilli !== (whole.get(part.id) ?? 0))
      .map(
        (part) =>
          `${part.code}: on hand says ${part.onHandMilli}, its bins add up to ${whole.get(part.id) ?? 0}.`,
      ),
    ...[...between]
      .filter(([, milli]) => milli !== 0)
      .map(([partId, milli]) => `${code.get(partId)}: its moves between bins add up to ${milli}.`),
  ];
}
