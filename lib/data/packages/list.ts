import type { ShopHandle } from "@/lib/db/shop";

export interface PackageLine {
  readonly id: number;
  readonly code: string;
  readonly name: string;
  readonly summary: string;
  readonly active: boolean;
  /** Newest published revision, null where none is. */
  readonly published: number | null;
  readonly publishedAt: Date | null;
  /** A revision being written, null where none is. */
  readonly draft: number | null;
}

/** All packages of the shop by name: a shop keeps some tens of them at most. */
export async function listPackages(shop: ShopHandle): Promise<PackageLine[]> {
  const rows = await shop.read.package.findMany({
    select: {
      id: true,
      code: true,
      name: true,
      summary: true,
      active: true,
      revisions: { select: { number: true, state: true, publishedAt: true }, orderBy: { number: "desc" } },
    },
    orderBy: { code: "asc" },
    take: 200,
  });
  return rows.map(({ revisions, ...row }) => {
    const published = revisions.find((r) => r.state === "published");
    const newest = revisions[0];
    return {
      ...row,
      published: published?.number ?? null,
      publishedAt: published?.publishedAt ?? null,
      draft: newest?.state === "draft" ? newest.number : null,
    };
  });
}
