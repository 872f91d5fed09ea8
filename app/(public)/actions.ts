"use server";
import { cookies } from "next/headers";
import { z } from "zod";
import { changePassword, resetPassword } from "@/lib/data/people/account";
import { mailIsSetUp, sendPeopleMail } from "@/lib/data/people/mails";
import { addStaff, invitationOf, join as joinShop } from "@/lib/data/people/members";
import { endAllSessions, endSession } from "@/lib/data/people/sessions";
import { createPerson, type ReadyPerson, readyPerson } from "@/lib/data/people/signUp";
import { forgetSignUps, keepSignUp, provenSignUp, type ShopWish } from "@/lib/data/people/signUps";
import { prepareShop } from "@/lib/data/shop/prepare";
import { Refusal } from "@/lib/domain/refusal";
import type { Outcome } from "@/lib/gate/action";
import { handleFor } from "@/lib/gate/handle";
import { limit } from "@/lib/gate/limit";
import { openShopFor, type PrepareShop, signUpWithShop } from "@/lib/gate/openShop";
import { personAction, publicAction } from "@/lib/gate/personAction";
import { demandSecondFactor } from "@/lib/gate/secondFactor";
import { cookieName, stepInside } from "@/lib/gate/session";
import { ownPasswordTried, signInTried } from "@/lib/gate/signInTries";
import { CODE_WANTED } from "@/lib/schemas/codeWanted";
import {
  FinishSignUpSchema,
  JoinSchema,
  PasswordChangeSchema,
  ResetAskSchema,
  ResetSchema,
  ShopName,
  SignUpSchema,
} from "@/lib/schemas/people";
import { degreesOf } from "@/lib/schemas/place";

const HOUR = 3_600_000;

/** Mails that anybody may have sent to an address: its owner is not to be flooded. */
const mailsTo = (email: string, now: Date) => limit(`mails to ${email}`, 6, HOUR, now);

/**
 * With mail, every address gets the same answer and its owner a mail, which opens the shop or says that there is a sign-in
 * already. Without mail it is said here, under the limit.
 */
export const signUp = publicAction("signup", SignUpSchema, async (input, now) => {
  const person = await readyPerson(input, [input.shopName]);
  const where = degreesOf(input);
  const wish = { ...input, latitude: where?.latitude, longitude: where?.longitude };
  if (!mailIsSetUp()) return openFirstShop(person, wish, now);
  await mailsTo(input.email, now);
  await keepSignUp(person, wish, now);
  return { to: "/signup/sent" };
});

export const finishSignUp = publicAction("signup", FinishSignUpSchema, async (input, now) => {
  const found = await provenSignUp(input.token, input.currentPassword, now);
  const wish = {
    ...found,
    altitudeM: found.altitudeM ?? undefined,
    latitude: found.latitude ?? undefined,
    longitude: found.longitude ?? undefined,
  };
  const outcome = await openFirstShop(found, wish, now);
  await forgetSignUps(found.email);
  return outcome;
});

async function openFirstShop(
  { id, name, email, passwordHash }: ReadyPerson,
  wish: ShopWish,
  now: Date,
): Promise<Outcome> {
  const person = { id, name, email, passwordHash };
  const opened = await signUpWithShop(person, wish.shopName, now, filledAs(wish));
  await stepInside(id, now, true);
  return { to: `/s/${opened.slug}`, toast: `${wish.shopName} is open.` };
}

const filledAs =
  ({ shopName, country, altitudeM, latitude, longitude }: ShopWish): PrepareShop =>
  (shop) =>
    prepareShop(shop, {
      name: shopName,
      country,
      ...(altitudeM === undefined ? {} : { altitudeM }),
      ...(latitude === undefined || longitude === undefined ? {} : { latitude, longitude }),
    });

export const join = publicAction("join", JoinSchema, async (input, now) => {
  const invitation = await invitationOf(input.token, now);
  if (!invitation)
    throw new Refusal("This invitation is used or over.", "Ask the shop's owner for a new one.");
  const password = input.password ?? "";
  const { id, name } = input.name
    ? {
        id: await createPerson({ name: input.name, email: invitation.email, password }, now),
        name: input.name,
      }
    : await knownPerson(invitation.email, password, input.code, now);
  const shop = await joinShop(input.token, id, invitation.email, now);
  const by = { personId: id, name, role: shop.role, staffId: null };
  await addStaff(handleFor(shop, by, now), { id, name, role: shop.role });
  await stepInside(id, now, input.name !== undefined);
  return { to: `/s/${shop.slug}`, toast: "You belong to the shop now." };
});

async function knownPerson(email: string, password: string, code: string | undefined, now: Date) {
  const person = await signInTried({ email, password }, now);
  try {
    await demandSecondFactor(person.id, code, now);
  } catch (cause) {
    if (!(cause instanceof Refusal) || cause.message !== CODE_WANTED) throw cause;
    throw new Refusal("Your sign-in has a second factor.", "Enter the code your app shows as well.", {
      code: "Enter the code.",
    });
  }
  return person;
}

export const askForReset = publicAction("reset", ResetAskSchema, async ({ email }, now) => {
  if (!mailIsSetUp())
    throw new Refusal(
      "This server sends no mail.",
      "Ask whoever runs it for a new-password link (npm run reset-link).",
    );
  // Whether the address is known is looked up as the mail leaves: here both take the same time.
  await mailsTo(email, now);
  await sendPeopleMail({ kind: "reset", to: email, detail: {} }, now);
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
    const owner = { id: session.personId, name: session.name };
    const opened = await openShopFor(owner, input.shopName, now, filledAs(input));
    return { to: `/s/${opened.slug}`, toast: `${input.shopName} is open.` };
  },
);
