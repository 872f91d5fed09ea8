"use server";
import { z } from "zod";
import { keepFor } from "@/lib/data/erasing/keeping";
import { endWorkOfIn } from "@/lib/data/jobs/time/leave";
import { releaseAllHeld, releaseHeld, retryMail } from "@/lib/data/mail/queue";
import { changeRole, invite, removeMember, revokeInvitation } from "@/lib/data/people/members";
import { askOwnersForFactor } from "@/lib/data/people/shops";
import { saveSettings } from "@/lib/data/quotes/switchTax";
import { addBay, addDaysOff, closeOn, removeDaysOff, saveHours, setBayActive } from "@/lib/data/shop/hours";
import { saveBands, saveGrade } from "@/lib/data/shop/prices";
import { tellEffectsOnQuotes } from "@/lib/data/shop/settings";
import { saveSeverity } from "@/lib/data/shop/severities";
import { sayInCompanyRegister } from "@/lib/data/shop/taxTerms";
import { firstSteps, showFirstSteps } from "@/lib/data/today/firstSteps";
import { parseMoney } from "@/lib/domain/money/parse";
import { Refusal } from "@/lib/domain/refusal";
import { action } from "@/lib/gate/action";
import { publicUrl } from "@/lib/gate/origin";
import { publicHolidays } from "@/lib/outside/holidays";
import { TellEffectsSchema } from "@/lib/schemas/effects";
import { KeepYearsSchema } from "@/lib/schemas/erasing";
import { formId } from "@/lib/schemas/ids";
import { MailIdSchema } from "@/lib/schemas/mail";
import { InviteSchema, OwnersFactorSchema, RemoveSchema, RoleSchema } from "@/lib/schemas/people";
import { SeveritySchema } from "@/lib/schemas/severities";
import {
  BandsSchema,
  BaySchema,
  BayStateSchema,
  DaysOffIdSchema,
  DaysOffSchema,
  GradeSchema,
  HolidaysSchema,
  HoursSchema,
  SettingsSchema,
} from "@/lib/schemas/shop";
import { RegisteredSchema } from "@/lib/schemas/tax";

export const putFirstStepsAway = action("shop.write", z.object({}), async (shop) => {
  await showFirstSteps(shop, false);
  return { toast: "Put away. Shop brings it back." };
});

export const bringFirstStepsBack = action("shop.write", z.object({}), async (shop) => {
  await showFirstSteps(shop, true);
  if (await firstSteps(shop, { ...shop.settings, firstSteps: true }))
    return { to: `/s/${shop.slug}`, toast: "The list is on Today." };
  return { toast: "All of the first steps are done." };
});

export const saveShopSettings = action("shop.write", SettingsSchema, async (shop, input) => {
  await saveSettings(shop, input);
  return { toast: "Settings saved." };
});

export const askForFactor = action("shop.write", OwnersFactorSchema, async (shop, { ownersNeedFactor }) => {
  await askOwnersForFactor(shop, ownersNeedFactor === "on");
  return { toast: ownersNeedFactor === "on" ? "Owners need a second factor from now on." : "Saved." };
});

export const invitePerson = action("people.write", InviteSchema, async (shop, input) => {
  const token = await invite(shop, input);
  return {
    toast: "Invitation made.",
    shown: { link: `${publicUrl().origin}/join/${token}`, email: input.email },
  };
});

export const takeBackInvitation = action("people.write", z.object({ id: formId() }), async (shop, { id }) => {
  await revokeInvitation(shop, id);
  return { toast: "Invitation taken back." };
});

export const setRole = action("people.write", RoleSchema, async (shop, input) => {
  await changeRole(shop, input, endWorkOfIn);
  return { toast: "Role changed; it counts from now on." };
});

export const removePerson = action("people.write", RemoveSchema, async (shop, { personId }) => {
  await removeMember(shop, personId, endWorkOfIn);
  return { toast: "Taken out of the shop." };
});

export const sendMailAgain = action("quote.send", MailIdSchema, async (shop, { id }) => {
  await retryMail(shop, id);
  return { toast: "It is tried again in the next round." };
});

export const releaseMail = action("shop.write", MailIdSchema, async (shop, { id }) => {
  await releaseHeld(shop, id);
  return { toast: "It goes with the next round." };
});

export const releaseAllMail = action("shop.write", z.object({}), async (shop) => ({
  toast: `${await releaseAllHeld(shop)} go with the next round.`,
}));

export const makeBay = action("shop.write", BaySchema, async (shop, { name }) => {
  await addBay(shop, name);
  return { toast: `${name} added.` };
});

export const useBay = action("shop.write", BayStateSchema, async (shop, { id, version, active }) => {
  await setBayActive(shop, { id, version, active: active === "yes" });
  return { toast: active === "yes" ? "In use again." : "Out of use. Its bookings stay." };
});

export const saveWorkingHours = action("shop.write", HoursSchema, async (shop, input) => {
  await saveHours(shop, input);
  return { toast: "Hours saved." };
});

export const addOff = action("shop.write", DaysOffSchema, async (shop, { staffId, ...days }) => {
  await addDaysOff(shop, { ...days, staffId: staffId === "" ? null : Number(staffId) });
  return { toast: "Days off added." };
});

export const closeOnHolidays = action("shop.write", HolidaysSchema, async (shop, { region, days }) => {
  const { country, zone } = shop.settings;
  const [first = "", last = ""] = [[...days].sort()[0], [...days].sort().at(-1)];
  const known = publicHolidays(country, region, first, last).filter(({ day }) => days.includes(day));
  const { closed, booked } = await closeOn(shop, known, zone);
  const left =
    booked === 0
      ? ""
      : ` ${booked} ${booked === 1 ? "booking lies" : "bookings lie"} there: move ${booked === 1 ? "it" : "them"}.`;
  return { toast: `Closed on ${closed} ${closed === 1 ? "day" : "days"}.${left}` };
});

export const removeOff = action("shop.write", DaysOffIdSchema, async (shop, input) => {
  await removeDaysOff(shop, input);
  return { toast: "Days off removed." };
});

export const saveLabourGrade = action("shop.write", GradeSchema, async (shop, input) => {
  const { currency, locale } = shop.settings;
  await saveGrade(shop, {
    id: input.id === "" ? null : Number(input.id),
    version: input.version,
    code: input.code,
    name: input.name,
    ratePerHourMinor: amount("rate", input.rate, currency, locale),
    costPerHourMinor: amount("cost", input.cost, currency, locale),
  });
  return { toast: "Grade saved." };
});

export const keepSeverity = action("shop.write", SeveritySchema, async (shop, input) => {
  await saveSeverity(shop, input);
  return { toast: "Saved." };
});

export const tellEffects = action("shop.write", TellEffectsSchema, async (shop, { on }) => {
  await tellEffectsOnQuotes(shop, on);
  return { toast: on ? "Customers read it on new quotes." : "Customers do not read it." };
});

export const saveKeepYears = action("shop.write", KeepYearsSchema, async (shop, { years }) => {
  await keepFor(shop, years);
  return { toast: "Saved." };
});

export const sayRegistered = action("shop.write", RegisteredSchema, async (shop, { inCompanyRegister }) => {
  await sayInCompanyRegister(shop, inCompanyRegister);
  return { toast: "Papers from now on say so." };
});

export const saveMarkup = action("shop.write", BandsSchema, async (shop, { bands }) => {
  await saveBands(shop, bands);
  return { toast: "Markup saved." };
});

function amount(field: string, typed: string, currency: string, locale: string): number {
  try {
    const minor = parseMoney(typed, currency, locale);
    if (minor < 0) throw new Refusal("A price is never negative.", "Enter zero or more.");
    return minor;
  } catch (cause) {
    if (!(cause instanceof Refusal)) throw cause;
    throw new Refusal(cause.message, cause.remedy, { [field]: `${cause.message} ${cause.remedy}` });
  }
}
