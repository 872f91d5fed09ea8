import { describe, expect, it } from "vitest";
import { BikeSchema } from "@/lib/schemas/bikes";
import { CustomerSchema } from "@/lib/schemas/customers";
import { ModelCardSchema } from "@/lib/schemas/modelCards";
import { oneLine } from "@/lib/schemas/oneLine";
import { SupplierSchema } from "@/lib/schemas/orders";
import { CreatePackageSchema } from "@/lib/schemas/packages";
import { NewPartSchema } from "@/lib/schemas/parts";
import { JoinSchema, SignUpSchema } from "@/lib/schemas/people";
import { CustomerAcceptSchema } from "@/lib/schemas/quotes";
import { BaySchema, GradeSchema, SettingsSchema } from "@/lib/schemas/shop";

const LINE_ENDS = ["\r\n", "\n", "\r", "\v", "\f", "\u0085", "\u2028", "\u2029", "\u0000", "\t"];

/** What goes into letters' headers, calendars, labels, file names and lists. */
const FIELDS = {
  person: [SignUpSchema, "name"],
  "person who joins": [JoinSchema, "name"],
  "new shop": [SignUpSchema, "shopName"],
  shop: [SettingsSchema, "name"],
  "shop's address for mail": [SettingsSchema, "email"],
  bay: [BaySchema, "name"],
  "labour grade": [GradeSchema, "name"],
  customer: [CustomerSchema, "name"],
  "customer's telephone": [CustomerSchema, "phone"],
  plate: [BikeSchema, "plate"],
  make: [ModelCardSchema, "make"],
  part: [NewPartSchema, "name"],
  "part's code": [NewPartSchema, "code"],
  bin: [NewPartSchema, "bin"],
  supplier: [SupplierSchema, "name"],
  package: [CreatePackageSchema, "name"],
  "who accepts": [CustomerAcceptSchema, "typedName"],
} as const;

const wrong = (
  schema: { safeParse(value: unknown): { error?: { issues: { path: PropertyKey[] }[] } } },
  value: unknown,
) => (schema.safeParse(value).error?.issues ?? []).map((issue) => issue.path.join("."));

describe("text that stands on one line", () => {
  it("is refused with a line's end or another control character inside, and trimmed of those around", () => {
    for (const end of LINE_ENDS)
      expect(oneLine(40).safeParse(`a${end}b`).success, JSON.stringify(end)).toBe(false);
    expect(oneLine(40).parse(" Ines Valdborg\r\n")).toBe("Ines Valdborg");
    expect(oneLine(40).parse("Åse 三つ – “x”")).toBe("Åse 三つ – “x”");
  });

  it.each(Object.entries(FIELDS))("%s: refused with a line's end, taken without", (_, [schema, field]) => {
    expect(wrong(schema, { [field]: "Saltpan\r\nBcc: all@evil.example" })).toContain(field);
    expect(wrong(schema, { [field]: "a\nb" })).toContain(field);
  });

  it("leaves notes and addresses their lines", () => {
    expect(wrong(CustomerSchema, { address: "1 Salt Road\r\n5000 Saltpan", notes: "a\nb" })).not.toContain(
      "address",
    );
    expect(wrong(SettingsSchema, { address: "1 Salt Road\nSaltpan" })).not.toContain("address");
    expect(wrong(SupplierSchema, { address: "1 Salt Road\nSaltpan" })).not.toContain("address");
    expect(wrong(BikeSchema, { notes: "a\nb", complaint: "c\nd" })).not.toContain("notes");
  });
});
