import { headers } from "next/headers";
import { forbidden, notFound, redirect } from "next/navigation";
import { cache } from "react";
import { addStaff } from "@/lib/data/people/members";
import { hasFactor } from "@/lib/data/people/secondFactor";
import { directory } from "@/lib/db/directory";
import type { ShopHandle } from "@/lib/db/shop";
import { may, type Permission, type Role } from "@/lib/domain/access/permissions";
import { noteRequest } from "@/lib/log/request";
import { handleFor } from "./handle";
import { currentSession } from "./session";
import { type ShopSettings, shopSettings } from "./settings";
import { orShut } from "./shut";

export interface OpenShop extends ShopHandle {
  /** Shop.id of the directory. */
  readonly shopId: string;
  readonly name: string;
  /** Made to try things in: each of its pages says so. */
  readonly sample: boolean;
  readonly settings: ShopSettings;
  readonly role: Role;
  /** Every shop this person belongs to, for the switcher. */
  readonly shops: readonly { slug: string; name: string }[];
  can(permission: Permission): boolean;
}

/** Why a shop does not open. A member's shop may ask its owners for a second factor they do not have yet. */
export type Closed = "signed out" | "missing" | "forbidden" | "shut" | "no second factor";

/** What a person is told whose shop waits for their second factor. */
export const NO_FACTOR = {
  message: "This shop asks its owners for a second factor, and you have none yet.",
  remedy: "Set it up under your name (Second factor), then do this once more.",
} as const;

/**
 * person -> membership -> shop -> database, once per request. Answers a reason instead of a shop where it
 * does not open: a stranger to the shop cannot tell it from one that does not exist.
 */
export const enter = cache(async (slug: string): Promise<OpenShop | Exclude<Closed, "forbidden">> => {
  const session = await currentSession();
  if (!session) return "signed out";
  const memberships = await directory().read.membership.findMany({
    where: { personId: session.personId, shop: { closedAt: null } },
    select: {
      role: true,
      shop: {
        select: {
          id: true,
          slug: true,
          name: true,
          database: true,
          server: true,
          sample: true,
          ownersNeedFactor: true,
        },
      },
    },
    orderBy: { id: "asc" },
  });
  const found = memberships.find((m) => m.shop.slug === slug);
  if (!found) return "missing";
  noteRequest({ shop: slug });
  if (found.role === "owner" && found.shop.ownersNeedFactor && !(await hasFactor(session.personId)))
    return "no second factor";
  const now = new Date();
  const person = { id: session.personId, name: session.name, role: found.role };
  const by = { personId: person.id, name: person.name, role: found.role, staffId: null };
  const opened = await orShut(found.shop, async () => {
    const base = handleFor(found.shop, by, now);
    const { settings, staffId } = await shopSettings(base, person.id);
    // Joining writes to the directory and to the shop: what a stop in between left out is made up for here.
    return { base, settings, staffId: staffId ?? (await addStaff(base, person)) };
  });
  if (opened === "shut") return "shut";
  const { base, settings, staffId } = opened;
  return {
    ...base,
    by: { ...base.by, staffId },
    shopId: found.shop.id,
    name: found.shop.name,
    sample: found.shop.sample,
    settings,
    role: found.role,
    shops: memberships.map((m) => ({ slug: m.shop.slug, name: m.shop.name })),
    can: (permission) => may(found.role, permission),
  };
});

/** The page that was asked for, to come back to: a path of this shop, with what was asked of it. */
async function asked(slug: string): Promise<string> {
  const given = await headers();
  const page = given.get("x-page") ?? "";
  const query = new URLSearchParams(given.get("x-query") ?? "");
  // What the router adds to an address of its own is no part of it.
  query.delete("_rsc");
  if (page !== `/s/${slug}` && !page.startsWith(`/s/${slug}/`)) return `/s/${slug}`;
  return query.size > 0 ? `${page}?${query}` : page;
}

/** Opens a shop for a page: else the sign-in page, "not found", "not yours to see" or "cannot be opened". */
export async function open(permission: Permission, slug: string): Promise<OpenShop> {
  const shop = await enter(slug);
  if (shop === "signed out") redirect(`/signin?to=${encodeURIComponent(await asked(slug))}`);
  if (shop === "missing") notFound();
  if (shop === "shut") redirect(`/shut/${slug}`);
  if (shop === "no second factor") redirect(`/account/second-factor?to=${encodeURIComponent(`/s/${slug}`)}`);
  if (!shop.can(permission)) forbidden();
  return shop;
}
