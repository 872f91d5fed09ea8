import type { ShopTx } from "@/lib/db/shop";
import type { Replaced } from "@/lib/db/withoutGuards";
import { searchKey } from "@/lib/domain/searchKey";

const FIELDS = ["name", "email", "phone", "address", "taxNumber"] as const;

type Known = Readonly<Record<(typeof FIELDS)[number], string>>;

interface KnownBike {
  readonly plate: string;
  readonly frameNumber: string;
}

export const ERASED = "Erased customer ";

export const erasedName = (id: number) => `${ERASED}${id}`;

export const isErased = ({ id, name }: { readonly id: number; readonly name: string }) =>
  name === erasedName(id);

/** Shorter texts stand inside others by chance. */
const SHORTEST = 5;

/** What the audit trail says that a customer was written as before. */
export async function formerlyWritten(tx: ShopTx, customerId: number): Promise<Partial<Known>[]> {
  const rows = await tx.auditEntry.findMany({
    where: { noun: "customer", nounId: customerId },
    select: { detail: true },
    orderBy: { id: "asc" },
    take: 2000,
  });
  return rows.flatMap(({ detail }) => saidIn(detail));
}

function saidIn(detail: unknown): Partial<Known>[] {
  if (typeof detail !== "object" || detail === null) return [];
  const said = Object.entries(detail).filter(
    ([key, value]) => (FIELDS as readonly string[]).includes(key) && typeof value === "string",
  );
  return [Object.fromEntries(said), ...Object.values(detail).flatMap(saidIn)];
}

/** Every form in which a customer and their bikes are written down, the longest first. */
export function writtenAs(
  id: number,
  known: readonly Partial<Known>[],
  bikes: readonly KnownBike[],
): Replaced[] {
  const label = erasedName(id);
  const plain: Replaced[] = [
    ...known.flatMap(({ name = "", email = "", phone = "", address = "", taxNumber = "" }) => [
      { from: name, to: label },
      ...[email, phone, phone.replace(/\D/g, ""), address, taxNumber].map((from) => ({ from, to: "" })),
      ...address.split(/\r?\n/).map((line) => ({ from: line.trim(), to: "" })),
    ]),
    ...bikes.flatMap((bike) => [bike.plate, bike.frameNumber].map((from) => ({ from, to: "" }))),
  ];
  const joined = plain.flatMap(({ from, to }) => [
    { from: from.replace(/\s*\r?\n\s*/g, ", "), to },
    { from: from.toLowerCase(), to },
    { from: searchKey(from), to: searchKey(to) },
    { from: from.replace(/[\s-]/g, ""), to },
    { from: searchKey(from.replace(/[\s-]/g, "")), to: searchKey(to) },
  ]);
  const all = new Map(
    [...plain, ...joined]
      .filter(({ from }) => from.trim().length >= SHORTEST && from !== label)
      .map((one) => [one.from, one]),
  );
  return [...all.values()].sort((a, b) => b.from.length - a.from.length);
}

/**
 * Those of them that mean nobody else: what another customer, one of the people or the shop itself is written as too stays where it is
 * not tied to this customer.
 */
export async function theirsAlone(
  tx: ShopTx,
  texts: readonly Replaced[],
  own: { readonly customerId: number },
): Promise<Replaced[]> {
  const others = await tx.customer.findMany({
    where: {
      id: { not: own.customerId },
      OR: texts.flatMap(({ from }) => [{ searchKey: { contains: searchKey(from) } }]),
    },
    select: { name: true, email: true, phone: true, address: true, taxNumber: true, searchKey: true },
    orderBy: { id: "asc" },
    take: 500,
  });
  const staff = await tx.staff.findMany({ select: { name: true }, orderBy: { id: "asc" }, take: 2000 });
  const suppliers = await tx.supplier.findMany({
    select: { searchKey: true },
    orderBy: { id: "asc" },
    take: 5000,
  });
  const bikes = await tx.bike.findMany({
    where: {
      customerId: { not: own.customerId },
      OR: texts.map(({ from }) => ({ searchKey: { contains: searchKey(from) } })),
    },
    select: { searchKey: true },
    orderBy: { id: "asc" },
    take: 500,
  });
  const shop = await tx.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { name: true, legalName: true, address: true, phone: true, email: true, taxNumber: true },
  });
  const elsewhere = searchKey(
    ...others.flatMap((one) => Object.values(one)),
    ...staff.map(({ name }) => name),
    ...[...suppliers, ...bikes].map((one) => one.searchKey),
    ...Object.values(shop),
  );
  return texts.filter(({ from }) => !elsewhere.includes(searchKey(from)));
}

/** A text with all of them replaced. */
export const cleaned = (text: string, texts: readonly Replaced[]) =>
  texts.reduce((now, { from, to }) => now.replaceAll(from, to), text);

/** JSON with all of them replaced in every text of it. */
export function cleanedJson(value: unknown, texts: readonly Replaced[]): unknown {
  if (typeof value === "string") return cleaned(value, texts);
  if (Array.isArray(value)) return value.map((one) => cleanedJson(one, texts));
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, cleanedJson(one, texts)]));
}
