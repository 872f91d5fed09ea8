import type { ShopHandle } from "@/lib/db/shop";
import { binText } from "@/lib/domain/stock/bins";

/** What must hold of bins: each says what its moves add up to, a part's bins its on hand, and moves between them nothing. */
export async function binProblems(shop: ShopHandle): Promise<string[]> {
  const [parts, bins, moved, between] = await Promise.all([
    shop.read.part.findMany({
      select: { id: true, code: true, onHandMilli: true },
      orderBy: { id: "asc" },
    }),
    shop.read.partBin.findMany({
      select: { partId: true, bin: true, onHandMilli: true },
      orderBy: { id: "asc" },
    }),
    shop.read.move.groupBy({ by: ["partId", "bin"], _sum: { quantityMilli: true } }),
    shop.read.move.groupBy({
      by: ["partId"],
      where: { kind: "betweenBins" },
      _sum: { quantityMilli: true },
    }),
  ]);
  const key = (row: { partId: number; bin: string }) => JSON.stringify([row.partId, row.bin]);
  const code = new Map(parts.map((part) => [part.id, part.code]));
  const said = new Map(bins.map((row) => [key(row), row.onHandMilli]));
  const sums = new Map(moved.map((row) => [key(row), row._sum.quantityMilli ?? 0]));
  const whole = new Map<number, number>();
  for (const row of bins) whole.set(row.partId, (whole.get(row.partId) ?? 0) + row.onHandMilli);
  return [
    ...[...bins, ...moved.filter((row) => !said.has(key(row)))].flatMap((row) => {
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
    ...between
      .filter((row) => row._sum.quantityMilli !== 0)
      .map((row) => `${code.get(row.partId)}: its moves between bins add up to ${row._sum.quantityMilli}.`),
  ];
}
