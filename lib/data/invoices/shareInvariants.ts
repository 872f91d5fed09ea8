import type { ShopHandle } from "@/lib/db/shop";

const PAGE = 1_000;

/** A sentence for each issued document whose kept shares do not add up to its net. */
export async function shareProblems(shop: ShopHandle): Promise<string[]> {
  const problems: string[] = [];
  for (let after = 0; ; ) {
    const page = await shop.read.invoice.findMany({
      where: { state: "issued", id: { gt: after } },
      select: { id: true, written: true, netMinor: true },
      orderBy: { id: "asc" },
      take: PAGE,
    });
    const last = page.at(-1)?.id ?? after;
    const sums = await shop.read.documentShare.groupBy({
      by: ["invoiceId"],
      where: { invoiceId: { gt: after, lte: last } },
      _sum: { netMinor: true },
      orderBy: { invoiceId: "asc" },
    });
    const summed = new Map(sums.map((row) => [row.invoiceId, row._sum.netMinor ?? 0]));
    for (const { id, written, netMinor } of page)
      if ((summed.get(id) ?? 0) !== netMinor)
        problems.push(
          `Document ${written}: its shares add up to ${summed.get(id) ?? 0}, its net is ${netMinor}.`,
        );
    if (page.length < PAGE) return problems;
    after = last;
  }
}
