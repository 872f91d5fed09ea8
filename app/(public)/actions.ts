"use server";
import { cookies } from "next/headers";
import { z } from "zod";
import { askReset, changePassword, resetPassword } from "@/lib/data/people/account";
import { addStaff, invitationOf, join as joinShop } from "@/lib/data/people/members";
import { endAllSessions, endSession } from "@/lib/data/people/sessions";
import { createPerson } from "@/lib/data/people/signUp";
import { prepareShop } from "@/lib/data/shop/prepare";
import { Refusal } from "@/lib/domain/refusal";
import { handleFor } from "@/lib/gate/handle";
import { openShopFor } from "@/lib/gate/openShop";
import { publicUrl } from "@/lib/gate/origin";
import { personAction, publicAction } from "@/lib/gate/personAction";
import { cookieName, stepInside } from "@/lib/gate/session";
import { ownPasswordTried, signInTried } from "@/lib/gate/signInTries";
import { mailer } from "@/lib/outside/mail";
import {
  JoinSchema,
  PasswordChangeSchema,
  ResetAskSchema,
  ResetSchema,
  ShopName,
  SignUpSchema,
} from "@/lib/schemas/people";

export const signUp = publicAction("signup", SignUpSchema, async (input, now) => {
  const personId = await createPerson(input, now);
  const opened = await openShopFor(personId, input.shopName, now);
  const owner = { personId, name: input.name, role: "owner" as const, staffId: null };
  await prepareShop(handleFor(opened, owner, now), {
    name: input.shopName,
    country: input.country,
    ...(input.altitudeM === undefined ? {} : { altitudeM: input.altitudeM }),
  });
  await stepInside(personId, now);
  return { to: `/s/${opened.slug}`, toast: `${input.shopName} is open.` };
});

export const join = publicAction("join", JoinSchema, async (input, now) => {
  const invitation = await invitationOf(input.token, now);
  if (!invitation)
    throw new Refusal("This invitation is used or over.", "Ask the shop's owner for a new one.");
  const password = input.password ?? "";
  const { personId, name } = input.name
    ? {
        personId: await createPerson({ name: input.name, email: invitation.email, password }, now),
        name: input.name,
      }
    : await signInTried({ email: invitation.email, password }, now).then((p) => ({
        personId: p.id,
        name: p.name,
      }));
  const shop = await joinShop(input.token, personId, invitation.email, now);
  const by = { personId, name, role: shop.role, staffId: null };
  await addStaff(handleFor(shop, by, now), { id: personId, name, role: shop.role });
  await stepInside(personId, now);
  return { to: `/s/${shop.slug}`, toast: "You belong to the shop now." };
});

export const askForReset = publicAction("reset", ResetAskSchema, async ({ email }, now) => {
  const mail = mailer();
  if (!mail)
    throw new Refusal(
      "This server sends no mail.",
      "Ask whoever runs it for a new-password link (npm run reset-link).",
    );
  const token = await askReset(email, now);
  if (token)
    await mail.send({
      to: email,
      subject: "A new password for Throttlewright",
      text: `Somebody asked for a new password for this address. Within two hours, set one here:\n\n${publicUrl().origin}/new-password/${token}\n\nIf that was not you, leave this be: nothing has changed.`,
    });
  return { to: "/signin", toast: "If that address is known here, a link is on its way." };
});

export const setNewPassword = publicAction("new-password", ResetSchema, async (input, now) => {
  await resetPassword(input.token, input.password, now);
  return { to: "/signin", toast: "The new password counts from now on." };
});

export const changeOwnPassword = personAction(PasswordChangeSchema, async (session, input) => {
  const now = new Date();
  await ownPasswordTried(session.personId, now, () =>
    changePassword(session.personId, session.sessionId, input, now),
  );
  return { toast: "The new password counts. Other devices are signed out." };
});

export const signOut = personAction(z.object({}), async (session) => {
  await endSession(session.sessionId);
  (await cookies()).delete(cookieName());
  return { to: "/signin", toast: "You are signed out." };
});

export const signOutEverywhere = personAction(z.object({}), async (session) => {
  await endAllSessions(session.personId, new Date());
  (await cookies()).delete(cookieName());
  return { to: "/signin", toast: "You are signed out on every device." };
});

export const openAnotherShop = personAction(
  z.object({
    shopName: ShopName,
    country: z.string().length(2),
  }),
  async (session, input) => {
    const now = new Date();
    const opened = await openShopFor(session.personId, input.shopName, now);
    const owner = { personId: session.personId, name: session.name, role: "owner" as const, staffId: null };
    await prepareShop(handleFor(opened, owner, now), { name: input.shopName, country: input.country });
    return { to: `/s/${opened.slug}`, toast: `${input.shopName} is open.` };
  },
);
