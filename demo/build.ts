import { configuration } from "@/lib/configuration/configuration";
import { createShop } from "@/lib/data/people/createShop";
import { addStaff } from "@/lib/data/people/members";
import { passwordMatches } from "@/lib/data/people/passwords";
import { createPerson } from "@/lib/data/people/signUp";
import { prepareShop } from "@/lib/data/shop/prepare";
import { directory } from "@/lib/db/directory";
import type { ShopPlace } from "@/lib/db/servers";
import type { Role } from "@/lib/domain/access/permissions";
import { handleFor } from "@/lib/gate/handle";
import { buildFjellrev } from "./fjellrev";
import { EIGHTEEN_MONTHS as NORTH, type NorthernSeasons } from "./fjellrev/seasons";
import { buildSaltpan } from "./saltpan";
import { type Seasons, EIGHTEEN_MONTHS as SOUTH } from "./saltpan/seasons";
import { DEMO_EMAILS, DEMO_PEOPLE, demoPassword, knownDemoPasswords, signInLines } from "./signIns";
import type { DemoShop } from "./stage";

/** Eighteen months of work and the days before its first quote. */
const OPEN_DAYS = 575;

/** How much of both shops' seasons is played. */
export interface Years {
  readonly saltpan: Seasons;
  readonly fjellrev: NorthernSeasons;
  /** Only the seasons, without what both shops have around today. */
  readonly alone?: true;
}

const EIGHTEEN_MONTHS: Years = { saltpan: SOUTH, fjellrev: NORTH };

/** Builds both demo shops by the same calls the screens make; the same day gives the same shops. */
export async function buildDemo(
  now: Date,
  years: Years | null = configuration().DEMO_HISTORY ? EIGHTEEN_MONTHS : null,
): Promise<void> {
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
  const around = !years?.alone;
  const past = around ? {} : { pastJobs: 0, monthly: [] };
  await buildSaltpan(saltpan, now, opened, { ...past, around, years: years?.saltpan });
  const fjellrev = await open("Fjellrev Motor", "fjellrev", "NO", 640, "Europe/Oslo", opened, {
    owner: DEMO_PEOPLE.fjellrevOwner,
  });
  await buildFjellrev(fjellrev, now, opened, { around, years: years?.fjellrev });
}

/** What the start prints of the demo people: never a password that does not let them in, as after a restore. */
export async function demoSignIns(): Promise<string[]> {
  const people = await directory().read.person.findMany({
    where: { email: { in: DEMO_EMAILS } },
    select: { email: true, passwordHash: true },
    orderBy: { email: "asc" },
  });
  if (people.length === 0) return [];
  const works = new Map<string, string>();
  for (const password of knownDemoPasswords())
    for (const { email, passwordHash } of people)
      if (!works.has(email) && (await passwordMatches(passwordHash, password))) works.set(email, password);
  return signInLines(works);
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
  const by = { personId: ownerId, name: people.owner?.name ?? "", role: "owner" as const, staffId: null };
  const staff = new Map<Role, number>();
  const prepare = async (place: ShopPlace) => {
    const empty = handleFor({ ...place, slug }, by, at);
    staff.set("owner", (await prepareShop(empty, { name, country, altitudeM, zone })).staffId);
  };
  const shop = await createShop({ name, slug, owner: { id: ownerId }, prepare }, at);
  const first = handleFor(shop, by, at);
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
          name: people[role]?.name ?? by.name,
          role,
          staffId: staff.get(role) ?? staff.get("owner") ?? null,
        },
        when,
      ),
  };
}
