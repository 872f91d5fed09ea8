import { searchKey } from "../searchKey";

/** What speaks for two records being one. `sure`: enough that most people would take them together. */
export interface Likeness {
  readonly why: string;
  readonly sure: boolean;
}

/** What is compared of a customer, folded by `customerLooks`. */
export interface CustomerLooks {
  readonly name: string;
  readonly email: string;
  readonly phone: string;
}

/** What is compared of a bike, folded by `bikeLooks`. */
export interface BikeLooks {
  /** Anything that is the same for the same owner. */
  readonly owner: string;
  readonly model: string;
  readonly year: number;
  readonly plate: string;
  readonly frame: string;
}

/** What is compared of a part, folded by `partLooks`. */
export interface PartLooks {
  readonly code: string;
  readonly name: string;
  readonly kind: string;
  readonly size: number;
  readonly supplier: string;
  readonly supplierCode: string;
}

type Some<T> = { readonly [K in keyof T]?: T[K] | null | undefined };

const signs = (text: string | null | undefined): string => searchKey(text).replace(/[^a-z0-9]/g, "");

/** The words of a name in any order and case: "Nordmann, Kari" is "kari nordmann". */
export const nameKey = (name: string): string =>
  searchKey(name)
    .split(/[\s,.;]+/)
    .filter(Boolean)
    .sort()
    .join(" ");

/**
 * The last eight digits of a telephone number, so that a country's code or a leading 0 makes no difference; "" for fewer than
 * six. Source: common practice.
 */
function phoneKey(phone: string): string {
  const digits = phone.replace(/\D/g, "");
  return digits.length < 6 ? "" : digits.slice(-8);
}

export const customerLooks = (one: Some<{ name: string; email: string; phone: string }>): CustomerLooks => ({
  name: nameKey(one.name ?? ""),
  email: (one.email ?? "").trim().toLowerCase(),
  phone: phoneKey(one.phone ?? ""),
});

export const bikeLooks = (
  owner: string,
  one: Some<{ make: string; model: string; year: number; plate: string; frameNumber: string }>,
): BikeLooks => ({
  owner,
  model: searchKey(one.make, one.model),
  year: one.year ?? 0,
  plate: signs(one.plate),
  frame: signs(one.frameNumber),
});

export const partLooks = (
  one: Some<{
    code: string;
    name: string;
    kind: string;
    sizeMilli: number;
    supplier: string;
    supplierCode: string;
  }>,
): PartLooks => ({
  code: signs(one.code),
  name: nameKey(one.name ?? ""),
  kind: one.kind ?? "other",
  size: one.sizeMilli ?? 0,
  supplier: nameKey(one.supplier ?? ""),
  supplierCode: signs(one.supplierCode),
});

const differ = (a: string | number, b: string | number): boolean => Boolean(a) && Boolean(b) && a !== b;
const same = (a: string, b: string): boolean => a !== "" && a === b;

/** One name's words are all among the other's: "K. Nordmann" is not, "Nordmann" is. */
function nearNames(a: string, b: string): boolean {
  const [few = [], many = []] = [a.split(" "), b.split(" ")].sort((x, y) => x.length - y.length);
  return few.every((word) => many.includes(word));
}

/** Whether two customers are probably one. Source: judgement. */
export function likeCustomers(a: CustomerLooks, b: CustomerLooks): Likeness | null {
  const shared = [same(a.email, b.email) && "e-mail", same(a.phone, b.phone) && "phone"]
    .filter(Boolean)
    .join(" and ");
  if (shared)
    return same(a.name, b.name)
      ? { why: `the same name and ${shared}`, sure: true }
      : nearNames(a.name, b.name)
        ? { why: `the same ${shared}, and a name like it`, sure: true }
        : { why: `the same ${shared}, but another name`, sure: false };
  if (!same(a.name, b.name)) return null;
  return differ(a.email, b.email) || differ(a.phone, b.phone)
    ? { why: "the same name, but another phone or e-mail", sure: false }
    : { why: "the same name", sure: true };
}

/** Whether two bikes are probably one. Source: judgement. */
export function likeBikes(a: BikeLooks, b: BikeLooks): Likeness | null {
  if (same(a.frame, b.frame)) return { why: "the same frame number", sure: true };
  if (same(a.plate, b.plate))
    return differ(a.frame, b.frame)
      ? { why: "the same plate, but another frame number", sure: false }
      : { why: "the same plate", sure: true };
  const apart = differ(a.year, b.year) || differ(a.frame, b.frame) || differ(a.plate, b.plate);
  return same(a.owner, b.owner) && same(a.model, b.model) && !apart
    ? { why: "the same owner, make and model", sure: true }
    : null;
}

/** Whether two parts are probably one. Source: judgement. */
export function likeParts(a: PartLooks, b: PartLooks): Likeness | null {
  if (same(a.code, b.code)) return { why: "the same code, written otherwise", sure: true };
  if (same(a.supplierCode, b.supplierCode) && !differ(a.supplier, b.supplier))
    return { why: "the same supplier's code", sure: true };
  return same(a.name, b.name) && a.kind === b.kind && a.size === b.size
    ? { why: "the same name, kind and size", sure: false }
    : null;
}

/** Signs of which like records share at least one: what candidates are looked up by. */
export const customerMarks = ({ email, phone, name }: CustomerLooks): string[] =>
  marks({ email, phone, name });

export const bikeMarks = ({ frame, plate, owner, model }: BikeLooks): string[] =>
  marks({ frame, plate, owner: owner && `${owner} ${model}` });

export const partMarks = ({ code, supplierCode, name }: PartLooks): string[] =>
  marks({ code, supplierCode, name });

const marks = (by: Readonly<Record<string, string>>): string[] =>
  Object.entries(by).flatMap(([kind, text]) => (text === "" ? [] : [`${kind} ${text}`]));
