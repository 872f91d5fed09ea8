import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import { demandOne } from "@/lib/db/guard";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { type TaxNumberKind, taxNumber } from "@/lib/domain/tax/numbers";
import { sellerNumberRule } from "@/lib/domain/tax/sellerNumber";
import { degreesOf, type TypedPlace } from "@/lib/schemas/place";

export type SettingsChange = Omit<Prisma.SettingsUpdateInput, "version" | "id" | "latitude" | "longitude"> &
  Partial<TypedPlace> & {
    version: number;
    taxRegime: string;
    taxNumber: string;
  };

/**
 * Saves how the shop works, inside a transaction of the caller's. Documents issued so far keep what they printed. A place left
 * blank stays.
 */
export async function saveSettingsIn(tx: ShopTx, shop: ShopHandle, input: SettingsChange): Promise<void> {
  const { version, place = "", latitude = null, longitude = null, ...rest } = input;
  const where = degreesOf({ place, latitude, longitude });
  const data = { ...rest, ...(where ? { ...where, latitudeSouth: where.latitude < 0 } : {}) };
  const before = await tx.settings.findUniqueOrThrow({ where: { id: 1 } });
  const { kind } = sellerNumberRule(data.taxRegime, before.country);
  if (data.taxNumber && kind) demandTaxNumber(kind, data.taxNumber);
  await demandOne(
    tx.settings.updateMany({
      where: { id: 1, version },
      data: { ...data, version: { increment: 1 } } as never,
    }),
    () =>
      new Refusal(
        "Somebody else saved the settings while you were at it.",
        "Load the page again to see theirs, then make your change.",
        {},
        "conflict",
      ),
  );
  const changed = Object.keys(data).filter(
    (key) => before[key as keyof typeof before] !== data[key as keyof typeof data],
  );
  await audit(tx, shop, "changed settings", "shop", null, { changed });
}

function demandTaxNumber(kind: TaxNumberKind, typed: string): void {
  try {
    taxNumber(kind, typed);
  } catch (cause) {
    if (!(cause instanceof Refusal)) throw cause;
    throw new Refusal(cause.message, cause.remedy, { taxNumber: cause.message });
  }
}

/** Whether customers read on their quotes what packages did here. */
export async function tellEffectsOnQuotes(shop: ShopHandle, on: boolean): Promise<void> {
  await shop.write(async (tx) => {
    await tx.settings.update({ where: { id: 1 }, data: { effectsOnQuotes: on }, select: { id: true } });
    await audit(tx, shop, "changed", "settings", null, { effectsOnQuotes: on });
  });
}
