import type { ShopHandle } from "@/lib/db/shop";

const PAGE = 1_000;

/** A sentence for each issued document whose kept shares do not add up to its net. */
export async function shareProblems(shop: ShopHandle): Promise<string[]> {
  const problems: string[] = [];
  for (let after = 0; ; ) {
    const page = await shop.read.invoice.findMany({
      where: { state: "issued", id: { gt: after } },
      select: {
        id: true,
        written: true,
        netMinor: true,
        shares: { select: { netMinor: true }, orderBy: { id: "asc" } },
      },
      orderBy: { id: "asc" },
      take: PAGE,
    });
    for (const { written, netMinor, shares } of page) {
      const sum = shares.reduce((total, share) => total + share.netMinor, 0);
      if (sum !== netMinor)
        problems.push(`Document ${written}: its shares add up to ${sum}, its net is ${netMinor}.`);
    }
    const last = page.at(-1);
    if (!last || page.length < PAGE) return problems;
    after = last.id;
  }
}
