import { forbidden, notFound, redirect } from "next/navigation";
import { cache } from "react";
import { directory } from "@/lib/db/directory";
import type { ShopHandle } from "@/lib/db/shop";
import { may, type Permission, type Role } from "@/lib/domain/access/permissions";
import { noteRequest } from "@/lib/log/request";
import { handleFor } from "./handle";
import { currentSession } from "./session";
import { type ShopSettings, shopSettings } from "./settings";

export interface OpenShop extends ShopHandle {
  readonly name: string;
  readonly settings: ShopSettings;
  readonly role: Role;
  /** Every shop this person belongs to, for the switcher. */
  readonly shops: readonly { slug: string; name: string }[];
  can(permission: Permission): boolean;
}

/** Why a shop does not open. */
export type Closed = "signed out" | "missing" | "forbidden";

/**
 * person -> membership -> shop -> database, once per request. Answers a reason instead of a shop where it
 * does not open: a stranger to the shop cannot tell it from one that does not exist.
 */
export const enter = cache(async (slug: string): Promise<OpenShop | "signed out" | "missing"> => {
  const session = await currentSession();
  if (!session) return "signed out";
  const memberships = await directory().read.membership.findMany({
    where: { personId: session.personId, shop: { closedAt: null } },
    select: { role: true, shop: { select: { slug: true, name: true, database: true } } },
    orderBy: { id: "asc" },
  });
  const found = memberships.find((m) => m.shop.slug === slug);
  if (!found) return "missing";
  noteRequest({ shop: slug });
  const now = new Date();
  const base = handleFor(
    found.shop,
    { personId: session.personId, name: session.name, role: found.role, staffId: null },
    now,
  );
  const { settings, staffId } = await shopSettings(base, session.personId);
  return {
    ...base,
    by: { ...base.by, staffId },
    name: found.shop.name,
    settings,
    role: found.role,
    shops: memberships.map((m) => ({ slug: m.shop.slug, name: m.shop.name })),
    can: (permission) => may(found.role, permission),
  };
});

/** Opens a shop for a page: else the sign-in page, "not found" or "not yours to see". */
export async function open(permission: Permission, slug: string): Promise<OpenShop> {
  const shop = await enter(slug);
  if (shop === "signed out") redirect(`/signin?to=${encodeURIComponent(`/s/${slug}`)}`);
  if (shop === "missing") notFound();
  if (!shop.can(permission)) forbidden();
  return shop;
}
