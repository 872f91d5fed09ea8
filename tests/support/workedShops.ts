import { recordPayment } from "@/lib/data/payments/record";
import { keepPhoto } from "@/lib/data/photos/keep";
import { sell } from "@/lib/data/sales/sell";
import { directory } from "@/lib/db/directory";
import { migrateAll } from "@/lib/db/migrate";
import type { ShopHandle } from "@/lib/db/shop";
import { folderStore, newFileName } from "@/lib/outside/fileStore";
import { preparePicture } from "@/lib/outside/pictures";
import { invoiceNow, issuedInvoice, nameShop, readyJob } from "./invoices";
import { phonePhoto } from "./pictures";
import { line, partToSell, saleOf } from "./sales";
import { twoShops } from "./shops";

export interface WorkedShop extends ShopHandle {
  readonly shopId: string;
  readonly name: string;
  /** Whose job was done and paid. */
  readonly customerId: number;
  readonly bikeId: number;
  readonly jobId: number;
  readonly invoiceId: number;
  readonly ownerEmail: string;
}

/** Two shops of the directory, each with a job that was quoted, done, invoiced and paid, a sale, mails and photos. */
export async function twoWorkedShops(): Promise<{ a: WorkedShop; b: WorkedShop }> {
  const { a, b } = await twoShops();
  await migrateAll();
  return { a: await worked(a, {}), b: await worked(b, { pricesIncludeTax: false }) };
}

async function worked(shop: ShopHandle, terms: { pricesIncludeTax?: boolean }): Promise<WorkedShop> {
  const name = `Shop ${shop.slug}`;
  const ownerEmail = `owner-${shop.slug}@example.com`.replaceAll("_", "-");
  const person = shop.by.personId;
  await directory().write(async (tx) => {
    const createdAt = shop.now;
    await tx.person.create({
      data: {
        id: person,
        email: ownerEmail,
        name: "Test Owner",
        passwordHash: `$argon2id$${person}`,
        createdAt,
      },
    });
    await tx.shop.create({ data: { id: shop.slug, slug: shop.slug, name, database: shop.slug, createdAt } });
    await tx.membership.create({ data: { personId: person, shopId: shop.slug, role: "owner", createdAt } });
  });
  await nameShop(shop, terms);
  const { jobId, ready } = await readyJob(shop);
  const invoiceId = await issuedInvoice(shop, jobId);
  const { grossMinor } = await invoiceNow(shop, invoiceId);
  await recordPayment(shop, { invoiceId, amountMinor: grossMinor, method: "card", paidOn: "2026-11-25" });
  await sell(shop, saleOf([line(await partToSell(shop), 2, 84_200)]));
  for (const [noun, nounId] of [
    ["bike", ready.bikeId],
    ["part", 1],
  ] as const) {
    const picture = await preparePicture(await phonePhoto());
    await keepPhoto(shop, folderStore(shop.files), picture, { noun, nounId, file: newFileName() });
  }
  const { customerId, bikeId } = ready;
  return { ...shop, shopId: shop.slug, name, customerId, bikeId, jobId, invoiceId, ownerEmail };
}
