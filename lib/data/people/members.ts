import { directory } from "@/lib/db/directory";
import { makeDueIn, SETTLING_STAFF } from "@/lib/db/due";
import { demandOne } from "@/lib/db/guard";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { newToken, tokenHash } from "@/lib/db/token";
import { may, type Role } from "@/lib/domain/access/permissions";
import { Refusal } from "@/lib/domain/refusal";
import { USUAL_HOURS } from "../shop/prepare";
import type { EndWorkIn } from "./staff";

/** People of a shop and its open invitations. */
export async function listMembers(shop: ShopHandle) {
  return directory().read.shop.findUniqueOrThrow({
    where: { slug: shop.slug },
    select: {
      id: true,
      memberships: {
        select: { role: true, createdAt: true, person: { select: { id: true, name: true, email: true } } },
        orderBy: { id: "asc" },
      },
      invitations: {
        where: { usedAt: null, revokedAt: null, expiresAt: { gt: shop.now } },
        select: { id: true, email: true, role: true, expiresAt: true },
        orderBy: { id: "asc" },
      },
    },
  });
}

const INVITATION_DAYS = 7;

/** Makes an invitation; answers the token for its link, which is kept nowhere. */
export async function invite(shop: ShopHandle, input: { email: string; role: Role }): Promise<string> {
  const token = newToken();
  await directory().write(async (tx) => {
    const found = await tx.shop.findUniqueOrThrow({ where: { slug: shop.slug }, select: { id: true } });
    const member = await tx.membership.findFirst({
      where: { shopId: found.id, person: { email: input.email } },
      select: { id: true },
    });
    if (member)
      throw new Refusal(
        `${input.email} belongs to this shop already.`,
        "Change the role in the list instead.",
      );
    await tx.invitation.updateMany({
      where: { shopId: found.id, email: input.email, usedAt: null, revokedAt: null },
      data: { revokedAt: shop.now },
    });
    await tx.invitation.create({
      data: {
        shopId: found.id,
        email: input.email,
        role: input.role,
        tokenHash: token.hash,
        createdBy: shop.by.personId,
        createdAt: shop.now,
        expiresAt: new Date(shop.now.getTime() + INVITATION_DAYS * 86_400_000),
      },
      select: { id: true },
    });
  });
  await shop.write((tx) =>
    audit(tx, shop, "invited", "person", null, { email: input.email, role: input.role }),
  );
  return token.text;
}

export async function revokeInvitation(shop: ShopHandle, id: number): Promise<void> {
  await demandOne(
    directory().write((tx) =>
      tx.invitation.updateMany({
        where: { id, shop: { slug: shop.slug }, usedAt: null, revokedAt: null },
        data: { revokedAt: shop.now },
      }),
    ),
    () => new Refusal("That invitation is used or gone already.", "Load the page again."),
  );
  await shop.write((tx) => audit(tx, shop, "took back an invitation", "person", null, { id }));
}

/** What an invitation link offers, while it counts. */
export async function invitationOf(token: string, now: Date) {
  const found = await directory().read.invitation.findUnique({
    where: { tokenHash: tokenHash(token) },
    select: {
      email: true,
      role: true,
      expiresAt: true,
      usedAt: true,
      revokedAt: true,
      shop: { select: { id: true, slug: true, name: true, database: true } },
    },
  });
  if (!found || found.usedAt || found.revokedAt || found.expiresAt <= now) return null;
  return found;
}

/** Uses an invitation for a person, once. */
export async function join(token: string, personId: string, email: string, now: Date) {
  return directory().write(async (tx) => {
    const hash = tokenHash(token);
    await demandOne(
      tx.invitation.updateMany({
        where: { tokenHash: hash, email, usedAt: null, revokedAt: null, expiresAt: { gt: now } },
        data: { usedAt: now },
      }),
      () =>
        new Refusal(
          "This invitation is for another address, or it is used or over.",
          "Ask the shop's owner for a new one.",
        ),
    );
    const { shop, role } = await tx.invitation.findUniqueOrThrow({
      where: { tokenHash: hash },
      select: { role: true, shop: { select: { id: true, slug: true, database: true, server: true } } },
    });
    await tx.membership.upsert({
      where: { personId_shopId: { personId, shopId: shop.id } },
      create: { personId, shopId: shop.id, role, createdAt: now },
      update: { role },
      select: { id: true },
    });
    await tx.securityEvent.create({
      data: { at: now, act: "joined", personId, shopId: shop.id, detail: role },
    });
    await makeDueIn(tx, shop.id, SETTLING_STAFF, now);
    return { ...shop, role };
  });
}

/** The shop's own row for a person who joined, so that work can carry their name. */
export async function addStaff(
  shop: ShopHandle,
  person: { id: string; name: string; role: Role },
): Promise<number> {
  return shop.write(async (tx) => {
    const row = await tx.staff.upsert({
      where: { personId: person.id },
      create: { personId: person.id, name: person.name, role: person.role, hours: USUAL_HOURS },
      update: { name: person.name, role: person.role, active: true },
      select: { id: true },
    });
    await audit(tx, shop, "joined", "person", row.id, { name: person.name, role: person.role });
    return row.id;
  });
}

/**
 * Changes a role; it counts from the person's next request. The last owner stays one. `endWork` ends the time of somebody who may not
 * work on jobs any more, and so could not stop it.
 */
export async function changeRole(
  shop: ShopHandle,
  input: { personId: string; role: Role },
  endWork: EndWorkIn,
): Promise<void> {
  await directory().write(async (tx) => {
    const { id: shopId } = await tx.shop.findUniqueOrThrow({
      where: { slug: shop.slug },
      select: { id: true },
    });
    if (input.role !== "owner") await demandAnotherOwner(tx, shopId, input.personId);
    await demandOne(
      tx.membership.updateMany({
        where: { shopId, personId: input.personId },
        data: { role: input.role },
      }),
      () => new Refusal("That person does not belong to this shop any more.", "Load the page again."),
    );
    await tx.securityEvent.create({
      data: {
        at: shop.now,
        act: "was given a role",
        personId: input.personId,
        shopId,
        detail: `${input.role}, by ${shop.by.name}`,
      },
    });
    await makeDueIn(tx, shopId, SETTLING_STAFF, shop.now);
  });
  await shop.write(async (tx) => {
    await tx.staff.updateMany({ where: { personId: input.personId }, data: { role: input.role } });
    if (!may(input.role, "job.work")) await endWorkOf(tx, shop, input.personId, endWork);
    await audit(tx, shop, "changed a role", "person", null, { personId: input.personId, role: input.role });
  });
}

/** Takes a person out of the shop at once; their work stays under their name, and `endWork` ends their time. */
export async function removeMember(shop: ShopHandle, personId: string, endWork: EndWorkIn): Promise<void> {
  await directory().write(async (tx) => {
    const { id: shopId } = await tx.shop.findUniqueOrThrow({
      where: { slug: shop.slug },
      select: { id: true },
    });
    await demandAnotherOwner(tx, shopId, personId);
    await demandOne(
      tx.membership.deleteMany({ where: { shopId, personId } }),
      () => new Refusal("That person does not belong to this shop any more.", "Load the page again."),
    );
    await tx.securityEvent.create({
      data: {
        at: shop.now,
        act: "was taken out of the shop",
        personId,
        shopId,
        detail: `by ${shop.by.name}`,
      },
    });
    await makeDueIn(tx, shopId, SETTLING_STAFF, shop.now);
  });
  await shop.write(async (tx) => {
    await tx.staff.updateMany({ where: { personId }, data: { active: false } });
    await endWorkOf(tx, shop, personId, endWork);
    await audit(tx, shop, "removed", "person", null, { personId });
  });
}

async function endWorkOf(tx: ShopTx, shop: ShopHandle, personId: string, endWork: EndWorkIn): Promise<void> {
  const row = await tx.staff.findUnique({ where: { personId }, select: { id: true } });
  if (row) await endWork(tx, shop, row.id);
}

async function demandAnotherOwner(
  tx: Parameters<Parameters<ReturnType<typeof directory>["write"]>[0]>[0],
  shopId: string,
  personId: string,
): Promise<void> {
  const other = await tx.membership.findFirst({
    where: { shopId, role: "owner", NOT: { personId } },
    select: { id: true },
  });
  if (!other) throw new Refusal("A shop needs an owner.", "Make another person an owner first.");
}
