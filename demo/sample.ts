import { randomBytes } from "node:crypto";
import { createShop, type OpenedShop } from "@/lib/data/people/createShop";
import { addStaff } from "@/lib/data/people/members";
import { prepareShop } from "@/lib/data/shop/prepare";
import { directory } from "@/lib/db/directory";
import type { ShopPlace } from "@/lib/db/servers";
import type { Role } from "@/lib/domain/access/permissions";
import { handleFor } from "@/lib/gate/handle";
import { buildSaltpan } from "./saltpan";
import { DEMO_PEOPLE } from "./signIns";
import type { DemoShop } from "./stage";

const SAMPLE_NAME = "Sample shop (Saltpan Carburettor Works)";

/** As long ago as the oldest of its jobs may be, and the days before its first quote. */
const OPEN_DAYS = 420;

/** Jobs of the months before: enough that every list has something in it, and few enough to be made in seconds. */
const HISTORY = { pastJobs: 5, monthly: [-60, -30] };

/** Makes the sample shop that a person asked for, by the same calls the screens make. Its other people sign in nowhere. */
export async function openSample(personId: string, now: Date): Promise<OpenedShop> {
  const owner = await directory().read.person.findUniqueOrThrow({
    where: { id: personId },
    select: { name: true },
  });
  const opened = new Date(now.getTime() - OPEN_DAYS * 86_400_000);
  const slug = `sample-${randomBytes(4).toString("hex")}`;
  const prepare = async (place: ShopPlace) => {
    const shop = await peopled({ ...place, slug }, { personId, name: owner.name }, opened);
    await buildSaltpan(shop, now, opened, HISTORY);
    const settled = shop.as("owner", now);
    await settled.write((tx) =>
      tx.settings.update({
        where: { id: 1 },
        data: { name: SAMPLE_NAME, legalName: SAMPLE_NAME, firstSteps: false },
        select: { id: true },
      }),
    );
  };
  return createShop({ name: SAMPLE_NAME, slug, owner: { id: personId }, sample: true, prepare }, now);
}

async function peopled(
  shop: ShopPlace,
  owner: { personId: string; name: string },
  at: Date,
): Promise<DemoShop> {
  const by = { ...owner, role: "owner" as const, staffId: null };
  const first = handleFor(shop, by, at);
  const { staffId } = await prepareShop(first, {
    name: SAMPLE_NAME,
    country: "AU",
    altitudeM: 410,
    zone: "Australia/Adelaide",
  });
  const people = new Map<Role, { personId: string; name: string; staffId: number }>([
    ["owner", { ...owner, staffId }],
  ]);
  for (const [role, { name }] of [
    ["desk", DEMO_PEOPLE.saltpanDesk],
    ["tuner", DEMO_PEOPLE.saltpanTuner],
    ["books", DEMO_PEOPLE.saltpanBooks],
  ] as const) {
    const personId = `sample-${role}`;
    people.set(role, { personId, name, staffId: await addStaff(first, { id: personId, name, role }) });
  }
  return {
    asCustomer: (when) =>
      handleFor(
        shop,
        { personId: "customer", name: "Customer by link", role: "customer", staffId: null },
        when,
      ),
    as: (role, when) => handleFor(shop, { ...by, ...people.get(role), role }, when),
  };
}
