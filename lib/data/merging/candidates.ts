import type { ShopHandle } from "@/lib/db/shop";
import { partsMatching, rowsMatching } from "../common/narrow";
import type { Side } from "./types";

type Candidate = Omit<Side, "version">;

const SHOWN = 20;

/** Each once, without the record itself. */
const others = (id: number, rows: readonly Candidate[]): Candidate[] => [
  ...new Map(rows.filter((row) => row.id !== id).map((row) => [row.id, row])).values(),
];

const said = (...texts: (string | number | null | undefined)[]): string =>
  texts.filter(Boolean).join(", ").replace(/\s+/g, " ");

/** Customers found by the words, else by this one's phone, e-mail and name. Null where it is not there, as below. */
export async function customerDoubles(shop: ShopHandle, id: number, q: string): Promise<Candidate[] | null> {
  const own = await shop.read.customer.findUnique({
    where: { id },
    select: { name: true, phone: true, email: true },
  });
  if (!own) return null;
  const phone = own.phone.replace(/\D/g, "").slice(-8);
  const asked = q ? [q] : [phone, own.email, own.name].filter((words) => words.length > 2);
  const found: Candidate[] = [];
  for (const words of asked) {
    const rows = await shop.read.customer.findMany({
      where: await rowsMatching(shop, "Customer", words),
      select: { id: true, name: true, phone: true, email: true, address: true },
      orderBy: [{ name: "asc" }, { id: "asc" }],
      take: SHOWN,
    });
    found.push(
      ...rows.map((row) => ({ id: row.id, name: row.name, about: said(row.phone, row.email, row.address) })),
    );
  }
  return others(id, found).slice(0, SHOWN);
}

/** Bikes found by the words, else by this one's frame number and plate, and its owner's others of the model. */
export async function bikeDoubles(shop: ShopHandle, id: number, q: string): Promise<Candidate[] | null> {
  const own = await shop.read.bike.findUnique({
    where: { id },
    select: {
      plate: true,
      frameNumber: true,
      customer: { select: { name: true } },
      modelCard: { select: { make: true, model: true } },
    },
  });
  if (!own) return null;
  const { make, model } = own.modelCard;
  const asked = q
    ? [q]
    : [own.frameNumber, own.plate, `${make} ${model} ${own.customer.name}`].filter(
        (words) => words.length > 2,
      );
  const found: Candidate[] = [];
  for (const words of asked) {
    const rows = await shop.read.bike.findMany({
      where: await rowsMatching(shop, "Bike", words),
      select: {
        id: true,
        year: true,
        plate: true,
        frameNumber: true,
        customer: { select: { name: true } },
        modelCard: { select: { make: true, model: true } },
      },
      orderBy: { id: "desc" },
      take: SHOWN,
    });
    found.push(
      ...rows.map((row) => ({
        id: row.id,
        name: [row.modelCard.make, row.modelCard.model, row.plate].filter(Boolean).join(" "),
        about: said(row.customer.name, row.year, row.frameNumber),
      })),
    );
  }
  return others(id, found).slice(0, SHOWN);
}

/** Parts in use found by the words, else by this one's supplier's code and name. */
export async function partDoubles(shop: ShopHandle, id: number, q: string): Promise<Candidate[] | null> {
  const own = await shop.read.part.findUnique({
    where: { id },
    select: { code: true, name: true, supplierCode: true },
  });
  if (!own) return null;
  const asked = q ? [q] : [own.supplierCode, own.name].filter((words) => words.length > 2);
  const found: Candidate[] = [];
  for (const words of asked) {
    const rows = await shop.read.part.findMany({
      where: { active: true, AND: [await partsMatching(shop, words)] },
      select: { id: true, code: true, name: true, supplier: true, bin: true },
      orderBy: { code: "asc" },
      take: SHOWN,
    });
    found.push(
      ...rows.map((row) => ({ id: row.id, name: row.code, about: said(row.name, row.supplier, row.bin) })),
    );
  }
  return others(id, found).slice(0, SHOWN);
}
