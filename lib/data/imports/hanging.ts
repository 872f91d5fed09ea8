import type { ShopTx } from "@/lib/db/shop";
import { fetched } from "../common/chunks";
import type { Entry } from "./types";

type Owners = (ids: number[]) => Promise<(number | null)[]>;

/** What can hang on a record of a noun: for many at once the record that each thing hangs on. */
function owners(tx: ShopTx, noun: Entry["noun"]): Readonly<Record<string, Owners>> {
  const order = { orderBy: { id: "asc" } } as const;
  const photo: Owners = async (ids) => {
    const where = { noun, nounId: { in: ids }, removedAt: null };
    return (await tx.photo.findMany({ where, select: { nounId: true }, ...order })).map((row) => row.nounId);
  };
  if (noun === "customer") {
    const of = (ids: number[]) => ({
      where: { customerId: { in: ids } },
      select: { customerId: true } as const,
      ...order,
    });
    const ids = (rows: readonly { customerId: number | null }[]) => rows.map((row) => row.customerId);
    return {
      bike: async (some) => ids(await tx.bike.findMany(of(some))),
      quote: async (some) => ids(await tx.quote.findMany(of(some))),
      job: async (some) => ids(await tx.job.findMany(of(some))),
      booking: async (some) => ids(await tx.booking.findMany(of(some))),
      invoice: async (some) => ids(await tx.invoice.findMany(of(some))),
    };
  }
  if (noun === "bike") {
    const of = (ids: number[]) => ({
      where: { bikeId: { in: ids } },
      select: { bikeId: true } as const,
      ...order,
    });
    const ids = (rows: readonly { bikeId: number | null }[]) => rows.map((row) => row.bikeId);
    return {
      "setting sheet": async (some) => ids(await tx.settingSheet.findMany(of(some))),
      quote: async (some) => ids(await tx.quote.findMany(of(some))),
      job: async (some) => ids(await tx.job.findMany(of(some))),
      booking: async (some) => ids(await tx.booking.findMany(of(some))),
      intake: async (some) => ids(await tx.intake.findMany(of(some))),
      arrival: async (some) => ids(await tx.arrival.findMany(of(some))),
      "follow-up": async (some) => ids(await tx.followUp.findMany(of(some))),
      "described part": async (some) => ids(await tx.fittedPart.findMany(of(some))),
      lesson: async (some) => ids(await tx.calibration.findMany(of(some))),
      "before-and-after figure": async (some) => ids(await tx.effect.findMany(of(some))),
      "photo pair": async (some) => ids(await tx.photoPair.findMany(of(some))),
      "vacuum balance": async (some) => ids(await tx.vacuumBalance.findMany(of(some))),
      photo,
    };
  }
  const of = (ids: number[]) => ({
    where: { partId: { in: ids } },
    select: { partId: true } as const,
    ...order,
  });
  const ids = (rows: readonly { partId: number }[]) => rows.map((row) => row.partId);
  return {
    reservation: async (some) => ids(await tx.reservation.findMany(of(some))),
    "order line": async (some) => ids(await tx.orderLine.findMany(of(some))),
    count: async (some) => ids(await tx.countLine.findMany(of(some))),
    supplier: async (some) => ids(await tx.partSupplier.findMany(of(some))),
    alternative: async (some) => ids(await tx.partSubstitute.findMany(of(some))),
    photo,
  };
}

/** What hangs on each of these records, in words: "2 bikes, 1 quote". */
export async function hangingOn(
  tx: ShopTx,
  noun: Entry["noun"],
  ids: readonly number[],
): Promise<Map<number, string>> {
  const words = new Map<number, string[]>();
  for (const [name, find] of Object.entries(owners(tx, noun))) {
    const found = Map.groupBy(await fetched(ids, find), (id) => id);
    for (const [id, all] of found)
      if (id !== null)
        words.set(id, [...(words.get(id) ?? []), `${all.length} ${name}${all.length === 1 ? "" : "s"}`]);
  }
  return new Map([...words].map(([id, told]) => [id, told.join(", ")]));
}
