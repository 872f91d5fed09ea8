import type { ShopHandle } from "@/lib/db/shop";
import {
  type BikeLooks,
  bikeLooks,
  bikeMarks,
  type CustomerLooks,
  customerLooks,
  customerMarks,
  type Likeness,
  likeBikes,
  likeCustomers,
  likeParts,
  type PartLooks,
  partLooks,
  partMarks,
} from "@/lib/domain/imports/likeness";
import type { BikeRow, CustomerRow, ImportPartRow } from "@/lib/domain/imports/rowTypes";
import type { ReadRow } from "@/lib/domain/imports/types";
import { ownersOf } from "./bikeStands";

/** A record here as it is compared, and as a person is told of it. */
export interface Looked<L> {
  readonly looks: L;
  readonly shown: { readonly id: number; readonly name: string; readonly about: string };
}

/** How one noun's rows are compared with the records that are here. */
export interface Kind<R, L> {
  readonly noun: "customer" | "bike" | "part";
  keysAmong(shop: ShopHandle, keys: string[]): Promise<string[]>;
  page(shop: ShopHandle, after: number, take: number): Promise<Looked<L>[]>;
  prepare(shop: ShopHandle, rows: readonly ReadRow<R>[]): Promise<(row: ReadRow<R>) => L>;
  marks(looks: L): string[];
  like(a: L, b: L): Likeness | null;
  says(row: R): string;
}

const joined = (...texts: (string | number | null | undefined)[]): string =>
  texts.filter(Boolean).join(", ").replace(/\s+/g, " ");

const CUSTOMERS: Kind<CustomerRow, CustomerLooks> = {
  noun: "customer",
  marks: customerMarks,
  like: likeCustomers,
  says: (row) => joined(row.name, row.phone, row.email, row.address),
  prepare: async () => (row) => customerLooks(row.values),
  async keysAmong({ read }, keys) {
    const rows = await read.customer.findMany({
      where: { importKey: { in: keys } },
      select: { importKey: true },
      orderBy: { id: "asc" },
    });
    return rows.flatMap((row) => row.importKey ?? []);
  },
  async page({ read }, after, take) {
    const rows = await read.customer.findMany({
      where: { id: { gt: after } },
      select: { id: true, name: true, email: true, phone: true, address: true },
      orderBy: { id: "asc" },
      take,
    });
    return rows.map((row) => ({
      looks: customerLooks(row),
      shown: { id: row.id, name: row.name, about: joined(row.phone, row.email, row.address) },
    }));
  },
};

const BIKES: Kind<BikeRow, BikeLooks> = {
  noun: "bike",
  marks: bikeMarks,
  like: likeBikes,
  says: (row) => joined(row.make, row.model, row.year, row.plate, row.frameNumber, row.customerName),
  async prepare(shop, rows) {
    const ownerOf = await ownersOf(shop.read, rows);
    return (row) => {
      const owner = ownerOf(row);
      return bikeLooks("wrong" in owner ? "" : String(owner.id), row.values);
    };
  },
  async keysAmong({ read }, keys) {
    const rows = await read.bike.findMany({
      where: { importKey: { in: keys } },
      select: { importKey: true },
      orderBy: { id: "asc" },
    });
    return rows.flatMap((row) => row.importKey ?? []);
  },
  async page({ read }, after, take) {
    const rows = await read.bike.findMany({
      where: { id: { gt: after } },
      select: {
        id: true,
        customerId: true,
        year: true,
        plate: true,
        frameNumber: true,
        customer: { select: { name: true } },
        modelCard: { select: { make: true, model: true } },
      },
      orderBy: { id: "asc" },
      take,
    });
    return rows.map(({ modelCard, customer, ...row }) => ({
      looks: bikeLooks(String(row.customerId), { ...row, ...modelCard }),
      shown: {
        id: row.id,
        name: [modelCard.make, modelCard.model, row.plate].filter(Boolean).join(" "),
        about: joined(row.year, row.frameNumber, customer.name),
      },
    }));
  },
};

const PARTS: Kind<ImportPartRow & { readonly code?: string }, PartLooks> = {
  noun: "part",
  marks: partMarks,
  like: likeParts,
  says: (row) => joined(row.name, row.supplier, row.supplierCode, row.bin),
  prepare: async () => (row) => partLooks({ ...row.values, code: row.key }),
  async keysAmong({ read }, keys) {
    const rows = await read.part.findMany({
      where: { code: { in: keys } },
      select: { code: true },
      orderBy: { id: "asc" },
    });
    return rows.map((row) => row.code);
  },
  async page({ read }, after, take) {
    const rows = await read.part.findMany({
      where: { id: { gt: after }, active: true },
      select: {
        id: true,
        code: true,
        name: true,
        kind: true,
        sizeMilli: true,
        supplier: true,
        supplierCode: true,
        bin: true,
      },
      orderBy: { id: "asc" },
      take,
    });
    return rows.map((row) => ({
      looks: partLooks(row),
      shown: { id: row.id, name: `${row.code} ${row.name}`, about: joined(row.supplier, row.bin) },
    }));
  },
};

export const KINDS = { customers: CUSTOMERS, bikes: BIKES, parts: PARTS };
