import { postgresUrl } from "./folders";
import { written } from "./joined/asking";
import { askerWithin } from "./sharedClient";
import type { ShopHandle, ShopTx } from "./shop";

/**
 * The two writes of a reservation in plain SQL, since acceptance makes one for each part of a quote while every other
 * writer of the shop waits: past Prisma's client each takes a small part of the time.
 */

/** Reserves so much of a part if it is free and, where the part is counted in pieces, whole; false: nothing was changed. */
export async function reserveAll(
  tx: ShopTx,
  shop: ShopHandle,
  partId: number,
  wantedMilli: number,
): Promise<boolean> {
  const whole = wantedMilli % 1000 === 0 ? "" : ` AND "unit" <> 'each'`;
  const count = await askerWithin(tx).change(
    asked(
      `UPDATE ${table(shop, "Part")} SET "reservedMilli" = "reservedMilli" + ? WHERE "id" = ? AND "onHandMilli" - "reservedMilli" >= ?${whole}`,
    ),
    [wantedMilli, partId, wantedMilli],
  );
  return count === 1;
}

export interface NewReservation {
  partId: number;
  jobId: number;
  stepId: number | null;
  wantedMilli: number;
  reservedMilli: number;
}

/** Writes the row that says who wanted what and when; answers its id. The rest is as the schema's defaults say. */
export async function insertReservation(tx: ShopTx, shop: ShopHandle, row: NewReservation): Promise<number> {
  const [made] = await askerWithin(tx).rows(
    asked(
      `INSERT INTO ${table(shop, "Reservation")} ("partId", "jobId", "stepId", "wantedMilli", "reservedMilli", "createdAt") VALUES (?, ?, ?, ?, ?, ?) RETURNING "id"`,
    ),
    [row.partId, row.jobId, row.stepId, row.wantedMilli, row.reservedMilli, written(shop.now)],
  );
  if (!made) throw new Error("The database gave a new reservation no id.");
  return Number(made[0]);
}

/** One pool serves every schema on PostgreSQL, so a table is named with its own. */
function table(shop: ShopHandle, name: string): string {
  return postgresUrl() ? `"${shop.database}"."${name}"` : `"${name}"`;
}

/** PostgreSQL counts its placeholders. */
function asked(text: string): string {
  let count = 0;
  return postgresUrl() ? text.replaceAll("?", () => `$${++count}`) : text;
}
