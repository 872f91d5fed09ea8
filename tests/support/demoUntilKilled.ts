// A process of its own that builds a demo on PostgreSQL and stands still half-way: demoUntilKilled.ts. It says a line of JSON
// once one shop of two is there.

import { createShop } from "@/lib/data/people/createShop";
import { createPerson } from "@/lib/data/people/signUp";
import { prepareShop } from "@/lib/data/shop/prepare";
import type { ShopPlace } from "@/lib/db/servers";
import { handleFor } from "@/lib/gate/handle";
import { makeDemo } from "@/lib/server/demoShops";

const now = new Date("2026-11-25T00:30:00Z");
const email = "first@demo.example";

await makeDemo(
  async () => {
    const personId = await createPerson({ name: "First", email, password: "bowl-brass-choke-1234" }, now);
    const by = { personId, name: "First", role: "owner" as const, staffId: null };
    const prepare = (place: ShopPlace) =>
      prepareShop(handleFor(place, by, now), {
        name: "Half built",
        country: "AU",
      });
    const shop = await createShop({ name: "Half built", owner: { id: personId }, prepare }, now);
    process.stdout.write(`${JSON.stringify({ half: shop.database })}\n`);
    await new Promise((resume) => setTimeout(resume, 600_000));
  },
  now,
  [email],
);
