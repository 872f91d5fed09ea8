import { directoryMailQueue } from "@/lib/data/people/mailTexts";
import { publicUrl } from "@/lib/gate/origin";
import { log } from "@/lib/log/log";
import { mailer } from "@/lib/outside/mail";
import { sendDue } from "@/lib/outside/mailQueue";

const EVERY_MS = 5_000;

/** Sends the mails to people as such (links for new passwords, sign-ups, new devices) that wait in the directory. */
export async function sendToPeople(): Promise<void> {
  const mails = directoryMailQueue(publicUrl().origin, () => new Date());
  const { failed } = await sendDue(mails, mailer(), (never: never) => never);
  if (failed) log().warn({ failed }, "Mails to people did not get away; they are tried again.");
}

/** Round after round for as long as the server runs, one at a time; nothing where no mail server is set up. */
export function startPeopleMail(): void {
  if (!mailer()) return;
  let going = false;
  setInterval(() => {
    if (going) return;
    going = true;
    sendToPeople()
      .catch((cause: unknown) => log().error({ err: cause }, "Sending mails to people failed."))
      .finally(() => {
        going = false;
      });
  }, EVERY_MS).unref();
}
