import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { encode } from "next-auth/jwt";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { z } from "zod";
import { reconfigure } from "@/lib/configuration/configuration";
import { createShop } from "@/lib/data/people/createShop";
import { beginSession } from "@/lib/data/people/sessions";
import { createPerson } from "@/lib/data/people/signUp";
import { prepareShop } from "@/lib/data/shop/prepare";
import { closeDirectory, directory } from "@/lib/db/directory";
import { migrateAll } from "@/lib/db/migrate";
import type { ShopPlace } from "@/lib/db/servers";
import { may, PERMISSIONS, type Permission } from "@/lib/domain/access/permissions";
import { action } from "@/lib/gate/action";
import { handleFor } from "@/lib/gate/handle";
import { UNASKED } from "@/lib/schemas/formState";
import { twoShops } from "../support/shops";

let cookie: string | undefined;
vi.mock("next/headers", () => ({
  headers: async () => new Headers({ origin: "http://localhost:3000", "x-client-address": "198.51.100.7" }),
  cookies: async () => ({ get: () => (cookie ? { value: cookie } : undefined), set: () => undefined }),
}));
vi.mock("next/cache", () => ({ revalidatePath: () => undefined }));

/** What changes money or the books, and nothing on the floor; `booking.read` is one's own calendar address. */
const MONEY = /^(payment|books|export|period|day|bank|tax|reminder|statement|chasing)\.|^booking\.read$/;
/** Rooms that the books come for, in pages and files. Pages that write a document are the desk's. */
const READ = /^app\/(api\/)?s\/\[shop\]\/(books|figures|hours|owing|invoices)(\/|$)/;
const WRITES = /\/(new|credit|draft|edit|reminder)\//;

interface Guarded {
  readonly file: string;
  readonly permission: Permission;
}

/** Every place of the code that matches, with the permission written beside it. */
function guarded(name: RegExp, beside: RegExp): Guarded[] {
  return ["app/s/[shop]", "app/api/s/[shop]"].flatMap((base) =>
    readdirSync(base, { recursive: true, encoding: "utf8" })
      .filter((file) => name.test(file))
      .flatMap((file) =>
        [...readFileSync(join(base, file), "utf8").matchAll(beside)].map((found) => ({
          file: join(base, file),
          permission: found[1] as Permission,
        })),
      ),
  );
}

const acts = [
  ...guarded(/\.tsx?$/, /^export const \w+[^=\n]*=\s*action\(\s*"([^"]+)"/gm),
  ...guarded(/route\.ts$/, /= shopUpload\(\s*"([^"]+)"/g),
];
const reads = [
  ...guarded(/page\.tsx$/, /await open\(\s*"([^"]+)"/g),
  ...guarded(/route\.ts$/, /= shopFile\(\s*"([^"]+)"/g),
];

async function asBooks(): Promise<string> {
  const now = new Date();
  reconfigure({ NEXTAUTH_SECRET: "a secret of tests, longer than thirty-two letters" });
  await twoShops(now);
  await migrateAll();
  const person = (name: string) =>
    createPerson({ name, email: `${name}@saltpan.example`, password: "float and needle, seated" }, now);
  const [owner, keeper] = [await person("owner"), await person("keeper")];
  const prepare = async (place: ShopPlace) => {
    const by = { personId: owner, name: "owner", role: "owner" as const, staffId: null };
    await prepareShop(handleFor(place, by, now), { name: "Saltpan", country: "AU" });
  };
  const { slug } = await createShop({ name: "Saltpan", owner: { id: owner }, prepare }, now);
  await directory().write(async (tx) => {
    const shop = await tx.shop.findUniqueOrThrow({ where: { slug }, select: { id: true } });
    await tx.membership.create({
      data: { personId: keeper, shopId: shop.id, role: "books", createdAt: now },
    });
  });
  const place = { agent: "", address: "198.51.100.7", newDevice: false };
  const sid = await beginSession({ id: keeper, email: "keeper@saltpan.example" }, place, now, 7);
  const secret = "a secret of tests, longer than thirty-two letters";
  cookie = await encode({ token: { sub: keeper, sid, version: 1 }, secret, maxAge: 3600 });
  return slug;
}

let slug: string;
beforeAll(async () => {
  slug = await asBooks();
});
afterAll(closeDirectory);

describe("who keeps the books", () => {
  it("is let into money's rooms and files, and may change money alone", () => {
    expect(acts.length).toBeGreaterThan(150);
    expect(reads.length).toBeGreaterThan(80);
    const closed = reads.filter(
      ({ file, permission }) => READ.test(file) && !WRITES.test(file) && !may("books", permission),
    );
    expect(closed).toEqual([]);
    const floor = acts.filter(({ permission }) => may("books", permission) && !MONEY.test(permission));
    expect(floor).toEqual([]);
    // None of the acts is on a page of the floor.
    const elsewhere = acts.filter(
      ({ file, permission }) =>
        may("books", permission) &&
        permission !== "booking.read" &&
        /\/(bikes|bookings|packages|quotes|bench|stock|arrivals|follow-ups|counter|import)\//.test(file),
    );
    expect(elsewhere).toEqual([]);
  });

  it("is refused by the gate for every permission that the table does not give, and by none that it does", async () => {
    let ran = 0;
    const wrong: string[] = [];
    for (const permission of PERMISSIONS) {
      const before = ran;
      const act = action(permission, z.object({}), async () => {
        ran += 1;
        return {};
      });
      const form = new FormData();
      form.append("_shop", slug);
      const answer = await act(UNASKED, form);
      const refused = answer?.message?.includes("Your role (books) may not do this") === true;
      if (refused === may("books", permission) || ran - before !== (refused ? 0 : 1)) wrong.push(permission);
    }
    expect(wrong).toEqual([]);
    expect(ran).toBeLessThan(PERMISSIONS.length / 2);
    expect(ran).toBeGreaterThan(8);
  });
});
