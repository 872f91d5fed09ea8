import { isKnown, makeReset } from "./account";
import { dropMail, type MailToQueue, noteFailure, takeMail } from "./mails";
import { makeSignUpToken } from "./signUps";

export interface Written {
  readonly to: string;
  readonly subject: string;
  readonly text: string;
}

const IN_CASE = "If that was not you, leave this be: nothing has changed.";

/** Writes a mail as it leaves, with the links only it holds. Null where there is nobody to write to, or nothing to say. */
async function writeMail(mail: MailToQueue, origin: string, now: Date): Promise<Written | null> {
  const { to } = mail;
  const about = (subject: string, ...paragraphs: string[]) => ({
    to,
    subject,
    text: paragraphs.join("\n\n"),
  });
  switch (mail.kind) {
    case "reset": {
      const token = await makeReset(to, now);
      if (!token) return null;
      return about(
        "A new password for Throttlewright",
        "Somebody asked for a new password for this address. Within two hours, set one here:",
        `${origin}/new-password/${token}`,
        IN_CASE,
      );
    }
    case "sign-up": {
      if (await isKnown(to))
        return about(
          "You have a sign-in at Throttlewright already",
          "Somebody, most likely you, asked to open a shop with this address, which has a sign-in here already.",
          `Sign in at ${origin}/signin; under your name there you can open another shop. If you have forgotten the password: ${origin}/reset`,
          IN_CASE,
        );
      const made = await makeSignUpToken(mail.detail.signUpId, now);
      if (!made) return null;
      return about(
        `Open ${made.shopName}`,
        "Somebody asked to open a shop with this address. If it was you, finish here within a day; you will be asked for the password you chose:",
        `${origin}/signup/${made.token}`,
        "If it was not you, leave this be: nothing is opened.",
      );
    }
    case "new device": {
      const { device, address, at } = mail.detail;
      return about(
        "A sign-in from a new device",
        `Somebody signed in to Throttlewright with your address and password:\n${device}\nfrom ${address}\nat ${at} (UTC)`,
        `If that was you, all is well. If not, change your password at once, which signs out every other device: ${origin}/account`,
      );
    }
    case "password changed":
      return about(
        "Your password was changed",
        "The password of your sign-in at Throttlewright was changed, and every other device was signed out.",
        `If that was not you, ask for a new one at once: ${origin}/reset`,
      );
    case "second factor off":
      return about(
        "Your second factor was turned off",
        "Signing in at Throttlewright with your address now asks for the password alone.",
        `If that was not you, set a new password at once (${origin}/reset), then set the second factor up again under your name.`,
      );
  }
}

/** In one round at most so many mails that turn out to have nobody to go to are passed over. */
const MOST_PASSED_OVER = 200;

/** The directory's mails on their way out, in the shape the sender takes. `now` is asked anew for each mail. */
export function directoryMailQueue(origin: string, now: () => Date) {
  return {
    async take() {
      for (let passed = 0; passed < MOST_PASSED_OVER; passed++) {
        const taken = await takeMail(now());
        if (!taken) return null;
        const written = await writeMail(taken.mail, origin, now());
        if (written) return { id: taken.id, ...written };
        await dropMail(taken.id);
      }
      return null;
    },
    enclosed: async (): Promise<readonly never[]> => [],
    sent: (mail: { readonly id: number }) => dropMail(mail.id),
    failed: (mail: { readonly id: number }, why: string) => noteFailure(mail.id, why),
  };
}
