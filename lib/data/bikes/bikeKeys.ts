import type { ShopTx } from "@/lib/db/shop";
import { searchKey } from "@/lib/domain/searchKey";

/** The text a bike is found by: its owner and model too. */
export function bikeKey(
  bike: { plate: string; frameNumber: string; year: number | null; colour: string },
  card: { make: string; model: string },
  customer: { name: string },
): string {
  return searchKey(
    bike.plate,
    bike.plate.replace(/[\s-]/g, ""),
    card.make,
    card.model,
    bike.year,
    bike.frameNumber,
    bike.colour,
    customer.name,
  );
}

const CHUNK = 500;

/** Writes the keys of bikes anew after their owner or model was renamed. A key is no edit: versions stay. */
export async function rekeyBikesIn(
  tx: ShopTx,
  of: { customerId: number } | { modelCardId: number },
): Promise<void> {
  for (let after = 0; ; ) {
    const bikes = await tx.bike.findMany({
      where: { ...of, id: { gt: after } },
      select: {
        id: true,
        plate: true,
        frameNumber: true,
        year: true,
        colour: true,
        modelCard: { select: { make: true, model: true } },
        customer: { select: { name: true } },
      },
      orderBy: { id: "asc" },
      take: CHUNK,
    });
    for (const bike of bikes)
      await tx.bike.updateMany({
        where: { id: bike.id },
        data: { searchKey: bikeKey(bike, bike.modelCard, bike.customer) },
      });
    const last = bikes.at(-1);
    if (!last || bikes.length < CHUNK) return;
    after = last.id;
  }
}
