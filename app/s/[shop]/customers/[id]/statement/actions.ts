"use server";
import { after } from "next/server";
import { mailStatement } from "@/lib/data/chasing/statementMail";
import { mailQueueOf } from "@/lib/data/mail/queue";
import { action } from "@/lib/gate/action";
import { mailer } from "@/lib/outside/mail";
import { sendDue } from "@/lib/outside/mailQueue";
import { MailStatementSchema } from "@/lib/schemas/chasing";
import { printForMail } from "@/lib/workers/mailPrints";

export const sendStatement = action("chasing.write", MailStatementSchema, async (shop, input, call) => {
  const { to } = await mailStatement(shop, { ...input, key: call.key });
  after(() => sendDue(mailQueueOf(shop), mailer(), (enclosed) => printForMail(shop, enclosed)));
  return { toast: `The statement goes to ${to}.` };
});
