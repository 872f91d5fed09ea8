"use server";
import { after } from "next/server";
import { chargeFees, waiveFee } from "@/lib/data/chasing/fees";
import { remindOfPayment } from "@/lib/data/chasing/remind";
import { sendReminders } from "@/lib/data/chasing/round";
import { endStop, stopReminders } from "@/lib/data/chasing/stops";
import { mailQueueOf } from "@/lib/data/mail/queue";
import { Refusal } from "@/lib/domain/refusal";
import { action } from "@/lib/gate/action";
import type { OpenShop } from "@/lib/gate/open";
import { publicUrl } from "@/lib/gate/origin";
import { mailer } from "@/lib/outside/mail";
import { sendDue } from "@/lib/outside/mailQueue";
import {
  ChargeFeesSchema,
  EndStopSchema,
  RemindSchema,
  SendRemindersSchema,
  StopSchema,
  WaiveFeeSchema,
} from "@/lib/schemas/chasing";
import { printForMail } from "@/lib/workers/mailPrints";

const sendSoon = (shop: OpenShop) =>
  after(() => sendDue(mailQueueOf(shop), mailer(), (enclosed) => printForMail(shop, enclosed)));

export const remind = action("chasing.write", RemindSchema, async (shop, input, call) => {
  const { byHand, ...rest } = input;
  const { to } = await remindOfPayment(shop, {
    ...rest,
    byHand: byHand === "on",
    origin: publicUrl().origin,
    key: call.key,
  });
  sendSoon(shop);
  return {
    to: `/s/${shop.slug}/invoices/${input.id}`,
    toast: to
      ? `A reminder to ${to} is in the mail queue.`
      : "Recorded. Print it from the list of reminders.",
  };
});

export const remindAll = action("chasing.write", SendRemindersSchema, async (shop, { reminders }) => {
  if (reminders.length === 0) throw new Refusal("Nothing is ticked.", "Tick the reminders to send.");
  const { sent, left } = await sendReminders(shop, { reminders, origin: publicUrl().origin });
  sendSoon(shop);
  const toast = `${sent} ${sent === 1 ? "reminder is" : "reminders are"} in the mail queue.`;
  return { toast: left.length > 0 ? `${toast} Not sent: ${left.join(" ")}` : toast };
});

export const stop = action("chasing.write", StopSchema, async (shop, input, call) => {
  const { invoiceId, customerId, reason, untilOn = null } = input;
  const rest = { reason, untilOn, key: call.key };
  if (invoiceId !== undefined) await stopReminders(shop, { invoiceId, ...rest });
  else if (customerId !== undefined) await stopReminders(shop, { customerId, ...rest });
  else throw new Refusal("It does not say of what.", "Open the page again.");
  return { toast: "No reminders are written." };
});

export const goOn = action("chasing.write", EndStopSchema, async (shop, { id }) => {
  await endStop(shop, id);
  return { toast: "Reminders go on." };
});

export const waive = action("chasing.write", WaiveFeeSchema, async (shop, input, call) => {
  await waiveFee(shop, { ...input, key: call.key });
  return { toast: "The fee is asked for no more." };
});

export const charge = action("invoice.write", ChargeFeesSchema, async (shop, input, call) => {
  await chargeFees(shop, { ...input, key: call.key });
  return { toast: "The fees are on the draft." };
});
