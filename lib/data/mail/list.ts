import type { ShopHandle, ShopTx } from "@/lib/db/shop";

const PAGE = 30;

/** Mail of the shop with what goes with it, newest first: sent, or waiting where no mail server is set up. */
export async function listMail(shop: ShopHandle, before?: number) {
  const [rows, held] = await Promise.all([
    shop.read.mail.findMany({
      ...(before ? { where: { id: { lt: before } } } : {}),
      orderBy: { id: "desc" },
      take: PAGE + 1,
    }),
    shop.read.mail.count({ where: { state: "held" } }),
  ]);
  const page = rows.slice(0, PAGE);
  const enclosed = await shop.read.mailAttachment.findMany({
    where: { mailId: { in: page.map((row) => row.id) } },
    select: { id: true, mailId: true, noun: true, name: true },
    orderBy: { id: "asc" },
  });
  const byMail = Map.groupBy(enclosed, (one) => one.mailId);
  return {
    held,
    rows: page.map((row) => ({ ...row, enclosed: byMail.get(row.id) ?? [] })),
    next: rows.length > PAGE ? page.at(-1)?.id : undefined,
  };
}

/** Letters about one thing, newest first: which, when, and whether it went. */
export async function lettersAbout(
  db: Pick<ShopTx, "mail">,
  about: { noun: "quote" | "job" | "booking" | "invoice" | "customer"; nounId: number },
) {
  return db.mail.findMany({
    where: { ...about, letter: { not: "" } },
    select: { id: true, letter: true, to: true, state: true, createdAt: true },
    orderBy: { id: "desc" },
    take: 20,
  });
}
