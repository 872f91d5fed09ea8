import type { ShopHandle } from "@/lib/db/shop";

let made = 0;

export interface JobMade {
  jobId: number;
  number: string;
  customerId: number;
}

/** The least that a job needs around it, written straight to the tables; for tests of what hangs on a job. */
export async function oneJob(
  shop: ShopHandle,
  more: { minutes?: number; email?: string; number?: number; state?: "waiting" | "booked" } = {},
): Promise<JobMade> {
  const n = ++made;
  return shop.write(async (tx) => {
    const customer = await tx.customer.create({
      data: {
        name: `Oda Fenn ${n}`,
        email: more.email ?? "",
        searchKey: `oda fenn ${n}`,
        createdAt: shop.now,
      },
    });
    const card = await tx.modelCard.create({
      data: {
        make: "Tarrant",
        model: `Drover 580 ${n}`,
        displacementCc: 578,
        carburettorType: "constant vacuum",
        searchKey: `tarrant drover 580 ${n}`,
        createdAt: shop.now,
      },
    });
    const bike = await tx.bike.create({
      data: {
        customerId: customer.id,
        modelCardId: card.id,
        plate: `SP ${n}`,
        searchKey: `sp ${n}`,
        createdAt: shop.now,
      },
    });
    const pack = await tx.package.create({ data: { code: `p${n}`, name: "Freer breathing" } });
    const recipe = await tx.packageRevision.create({
      data: { packageId: pack.id, number: 1, state: "published", recipe: {}, createdAt: shop.now },
    });
    const sequence = more.number ?? 600 + n;
    const number = String(sequence);
    const quote = await tx.quote.create({
      data: {
        number,
        sequence,
        customerId: customer.id,
        bikeId: bike.id,
        title: "Freer breathing",
        state: "accepted",
        validUntil: "2026-12-31",
        searchKey: `quote ${n}`,
        createdAt: shop.now,
      },
    });
    const revision = await tx.quoteRevision.create({
      data: {
        quoteId: quote.id,
        number: 1,
        works: { create: { position: 1, kind: "package", packageRevisionId: recipe.id } },
        choices: [],
        conditions: {},
        createdAt: shop.now,
      },
    });
    const job = await tx.job.create({
      data: {
        number,
        sequence,
        customerId: customer.id,
        bikeId: bike.id,
        revisionId: revision.id,
        title: "Freer breathing",
        state: more.state ?? "waiting",
        minutes: more.minutes ?? 180,
        searchKey: `job ${number}`,
        createdAt: shop.now,
      },
    });
    return { jobId: job.id, number: job.number, customerId: customer.id };
  });
}
