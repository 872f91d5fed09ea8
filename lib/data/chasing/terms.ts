import { demandOne } from "@/lib/db/guard";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { type ReminderTerms, USUAL_TERMS } from "@/lib/domain/chasing/reminderTerms";
import { Refusal } from "@/lib/domain/refusal";
import { taxMark } from "@/lib/domain/tax/rates";

/** When a shop reminds of late invoices; `version` is 0 where it never said so. */
export async function reminderTerms(
  db: Pick<ShopTx, "reminderTerms">,
): Promise<ReminderTerms & { readonly version: number }> {
  const row = await db.reminderTerms.findUnique({ where: { id: 1 } });
  if (!row) return { ...USUAL_TERMS, version: 0 };
  const { days1, days2, days3, fee1Minor, fee2Minor, fee3Minor } = row;
  return {
    levels: [
      { level: 1, days: days1, feeMinor: fee1Minor, automatic: row.automatic1 },
      { level: 2, days: days2, feeMinor: fee2Minor, automatic: row.automatic2 },
      { level: 3, days: days3, feeMinor: fee3Minor, automatic: row.automatic3 },
    ],
    feeTaxMark: taxMark(row.feeTaxMark),
    version: row.version,
  };
}

/** Keeps when a shop reminds, and what it asks for it, over the version that was seen. */
export async function saveReminderTerms(
  shop: ShopHandle,
  input: ReminderTerms & { readonly version: number },
): Promise<void> {
  const { levels, feeTaxMark, version } = input;
  demandRising(levels);
  const data = {
    ...Object.fromEntries(
      levels.flatMap(({ level, days, feeMinor, automatic }) => [
        [`days${level}`, days],
        [`fee${level}Minor`, days === null ? 0 : feeMinor],
        [`automatic${level}`, days !== null && automatic],
      ]),
    ),
    feeTaxMark,
  };
  const conflict = () =>
    new Refusal(
      "Someone changed this meanwhile. Nothing of yours was saved.",
      "Open the page anew, and change it from there.",
      {},
      "conflict",
    );
  await shop.write(async (tx) => {
    if (version === 0) {
      if (await tx.reminderTerms.findUnique({ where: { id: 1 }, select: { id: true } })) throw conflict();
      await tx.reminderTerms.create({ data: { id: 1, ...data }, select: { id: true } });
    } else
      await demandOne(
        tx.reminderTerms.updateMany({
          where: { id: 1, version },
          data: { ...data, version: { increment: 1 } },
        }),
        conflict,
      );
    await audit(tx, shop, "changed", "reminderTerms", null, data);
  });
}

/** Refuses days that do not rise from one reminder to the next. */
function demandRising(levels: ReminderTerms["levels"]): void {
  const given = levels.filter((one) => one.days !== null);
  for (const [at, { level, days }] of given.entries()) {
    const before = given[at - 1]?.days ?? 0;
    if ((days ?? 0) > before) continue;
    const what = "Enter more days than for the one before.";
    throw new Refusal("Each reminder comes after the one before it.", what, { [`days${level}`]: what });
  }
}
