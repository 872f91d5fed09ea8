"use server";
import { z } from "zod";
import { demandOwnPassword } from "@/lib/data/people/account";
import { sendPeopleMail } from "@/lib/data/people/mails";
import { endOtherSessions, endOwnSession } from "@/lib/data/people/ownSessions";
import {
  confirmFactor,
  dropFactor,
  hasFactor,
  offerFactor,
  renewRecoveryCodes,
} from "@/lib/data/people/secondFactor";
import type { LiveSession } from "@/lib/data/people/sessions";
import { inFours } from "@/lib/domain/access/codes";
import { Refusal } from "@/lib/domain/refusal";
import { personAction } from "@/lib/gate/personAction";
import { factorSealer, takeCodeTried } from "@/lib/gate/secondFactor";
import { ownPasswordTried } from "@/lib/gate/signInTries";
import { FactorCodeSchema, FactorGuardSchema, SessionMarkSchema } from "@/lib/schemas/people";

const HERE = "/account/second-factor";

/** Nobody at an unlocked screen changes how its owner comes in: the password is asked again, and a code where there is one. */
async function demandSelf(
  session: LiveSession,
  given: { currentPassword: string; code: string },
  now: Date,
): Promise<void> {
  await ownPasswordTried(session.personId, now, () =>
    demandOwnPassword(session.personId, given.currentPassword),
  );
  if (!(await hasFactor(session.personId))) return;
  if (given.code === "")
    throw new Refusal("A code is wanted as well.", "Enter the one your app shows, or a recovery code.", {
      code: "Enter the code.",
    });
  await takeCodeTried(session.personId, given.code, now);
}

/** Where the setting up leads back to, once it is done, is kept in the address. */
const ToSchema = z.object({ to: z.string().max(300).default("") });

export const beginFactor = personAction(FactorGuardSchema.extend(ToSchema.shape), async (session, input) => {
  const now = new Date();
  await demandSelf(session, input, now);
  await offerFactor(session.personId, factorSealer(), now);
  return { to: input.to ? `${HERE}?to=${encodeURIComponent(input.to)}` : HERE };
});

const shownOnce = (codes: readonly string[]) => ({ codes: codes.map((code) => inFours(code)).join("\n") });

export const turnOnFactor = personAction(FactorCodeSchema, async (session, { code }) => {
  const codes = await confirmFactor(session.personId, code, factorSealer(), new Date());
  return { shown: shownOnce(codes) };
});

export const makeNewCodes = personAction(FactorGuardSchema, async (session, input) => {
  const now = new Date();
  await demandSelf(session, input, now);
  return { shown: shownOnce(await renewRecoveryCodes(session.personId, now)) };
});

export const turnOffFactor = personAction(FactorGuardSchema, async (session, input) => {
  const now = new Date();
  await demandSelf(session, input, now);
  await dropFactor(session.personId, now);
  await sendPeopleMail({ kind: "second factor off", to: session.email, detail: {} }, now);
  return { to: HERE, toast: "The second factor is off." };
});

export const endDevice = personAction(SessionMarkSchema, async (session, { mark }) => {
  await endOwnSession(session.personId, mark, new Date());
  return { to: "/account/devices", toast: "That device is signed out." };
});

export const endOtherDevices = personAction(z.object({}), async (session) => {
  const count = await endOtherSessions(session.personId, session.sessionId, new Date());
  const said = count === 1 ? "One other device is signed out." : `${count} other devices are signed out.`;
  return { to: "/account/devices", toast: said };
});
