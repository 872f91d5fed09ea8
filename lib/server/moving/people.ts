import { type DirectoryTx, directory } from "@/lib/db/directory";
import type { DatabasePlace } from "@/lib/db/servers";
import { Refusal } from "@/lib/domain/refusal";

/** All that the directory knows of one shop: its row, and the people who belong to it with what they sign in by. */
export async function directoryRowsOf(slug: string) {
  return directory().read.shop.findUnique({
    where: { slug },
    include: {
      memberships: {
        include: { person: { include: { secondFactor: true, recoveryCodes: true } } },
        orderBy: { id: "asc" },
      },
      invitations: { orderBy: { id: "asc" } },
    },
  });
}

export type DirectoryRows = NonNullable<Awaited<ReturnType<typeof directoryRowsOf>>>;

/** Refuses where the place that a shop is moved to has its name, or one of its people as somebody else. */
export async function demandRoom({ id, slug, memberships }: DirectoryRows): Promise<void> {
  const { read } = directory();
  const taken = await read.shop.findFirst({
    where: { OR: [{ id }, { slug }] },
    select: { slug: true },
    orderBy: { id: "asc" },
  });
  if (taken)
    throw new Refusal(`There is a shop “${taken.slug}” already where it is to go.`, "Nothing was moved.");
  for (const { person } of memberships) {
    const other = await read.person.findUnique({ where: { email: person.email }, select: { id: true } });
    if (other && other.id !== person.id)
      throw new Refusal(
        `${person.email} has an account of their own where the shop is to go.`,
        "Take them out of the shop first and invite them again afterwards. Nothing was moved.",
      );
  }
}

/** Writes the same rows, but for where the shop is now. Who is there already keeps their password. Sessions are not carried. */
export async function carryRowsIn(
  tx: DirectoryTx,
  rows: DirectoryRows,
  { database, server }: DatabasePlace,
): Promise<void> {
  const { memberships, invitations, changes: _, ...shop } = rows;
  for (const { person } of memberships) {
    const { secondFactor, recoveryCodes, ...bare } = person;
    if (await tx.person.findUnique({ where: { id: bare.id }, select: { id: true } })) continue;
    await tx.person.create({ data: bare, select: { id: true } });
    if (secondFactor) await tx.secondFactor.create({ data: secondFactor, select: { personId: true } });
    for (const { id: _id, ...code } of recoveryCodes)
      await tx.recoveryCode.create({ data: code, select: { id: true } });
  }
  await tx.shop.create({ data: { ...shop, database, server, closedAt: null }, select: { id: true } });
  for (const { id: _id, person: _person, ...membership } of memberships)
    await tx.membership.create({ data: membership, select: { id: true } });
  for (const { id: _id, ...invitation } of invitations)
    await tx.invitation.create({ data: invitation, select: { id: true } });
}
