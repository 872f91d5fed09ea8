import { addStaff } from "@/lib/data/people/members";
import { createPerson, createShop, type OpenedShop } from "@/lib/data/people/signUp";
import { prepareShop } from "@/lib/data/shop/prepare";
import { directory } from "@/lib/db/directory";
import type { Role } from "@/lib/domain/access/permissions";
import { handleFor } from "@/lib/gate/handle";
import { buildFjellrev } from "./fjellrev";
import { buildSaltpan } from "./saltpan";
import { DEMO_PEOPLE, demoPassword, signInLines } from "./signIns";
import type { DemoShop } from "./stage";

/** Eighteen months of work and the days before its first quote. */
const OPEN_DAYS = 575;

/** Builds both demo shops by the same calls the screens make; the same day gives the same shops. */
export async function buildDemo(now: Date): Promise<void> {
  const opened = new Date(now.getTime() - OPEN_DAYS * 86_400_000);
  const saltpan = await open(
    "Saltpan Carburettor Works",
    "saltpan",
    "AU",
    410,
    "Australia/Adelaide",
    opened,
    {
      owner: DEMO_PEOPLE.saltpanOwner,
      desk: DEMO_PEOPLE.saltpanDesk,
      tuner: DEMO_PEOPLE.saltpanTuner,
      books: DEMO_PEOPLE.saltpanBooks,
    },
  );
  await buildSaltpan(saltpan, now, opened);
  const fjellrev = await open("Fjellrev Motor", "fjellrev", "NO", 640, "Europe/Oslo", opened, {
    owner: DEMO_PEOPLE.fjellrevOwner,
  });
  await buildFjellrev(fjellrev, now, opened);
}

export async function demoSignIns(): Promise<string[]> {
  const known = await directory().read.person.findUnique({
    where: { email: DEMO_PEOPLE.saltpanOwner.email },
    select: { id: true },
  });
  return known ? signInLines() : [];
}

async function open(
  name: string,
  slug: string,
  country: string,
  altitudeM: number,
  zone: string,
  at: Date,
  people: Partial<Record<Role, { email: string; name: string }>>,
): Promise<DemoShop> {
  const ids = new Map<Role, string>();
  for (const [role, person] of Object.entries(people))
    ids.set(role as Role, await createPerson({ ...person, password: demoPassword() }, at));
  const ownerId = ids.get("owner") as string;
  const shop: OpenedShop = await createShop(name, ownerId, at, slug);
  const ownerName = people.owner?.name ?? "";
  const first = handleFor(shop, { personId: ownerId, name: ownerName, role: "owner", staffId: null }, at);
  const { staffId } = await prepareShop(first, { name, country, altitudeM, zone });
  const staff = new Map<Role, number>([["owner", staffId]]);
  for (const [role, person] of Object.entries(people)) {
    if (role === "owner") continue;
    const personId = ids.get(role as Role) as string;
    await directory().write((tx) =>
      tx.membership.create({
        data: { personId, shopId: shop.id, role: role as Role, createdAt: at },
        select: { id: true },
      }),
    );
    staff.set(role as Role, await addStaff(first, { id: personId, name: person.name, role: role as Role }));
  }
  return {
    asCustomer: (when) =>
      handleFor(
        shop,
        { personId: "customer", name: "Customer by link", role: "customer", staffId: null },
        when,
      ),
    as: (role, when) =>
      handleFor(
        shop,
        {
          personId: ids.get(role) ?? ownerId,
          name: people[role]?.name ?? ownerName,
          role,
          staffId: staff.get(role) ?? staffId,
        },
        when,
      ),
  };
}
