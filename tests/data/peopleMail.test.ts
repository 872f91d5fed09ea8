import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { reconfigure } from "@/lib/configuration/configuration";
import { resetPassword } from "@/lib/data/people/account";
import { type MailToQueue, sendPeopleMail, sweepMails } from "@/lib/data/people/mails";
import { directoryMailQueue } from "@/lib/data/people/mailTexts";
import { authenticate, beginSession } from "@/lib/data/people/sessions";
import { createPerson, readyPerson } from "@/lib/data/people/signUp";
import { keepSignUp, provenSignUp, signUpOf, sweepSignUps } from "@/lib/data/people/signUps";
import { closeDirectory, directory } from "@/lib/db/directory";
import { migrateAll } from "@/lib/db/migrate";
import type { Mail } from "@/lib/outside/mail";
import { sendDue } from "@/lib/outside/mailQueue";
import { twoShops } from "../support/shops";

const NOW = new Date("2026-11-25T00:30:00Z");
const inMinutes = (minutes: number) => new Date(NOW.getTime() + minutes * 60_000);
const ORIGIN = "http://localhost:3540";
const PASSWORD = "float and needle, seated";
const KNOWN = "maren@saltpan.example";
const UNKNOWN = "nobody@saltpan.example";
let id = "";

beforeAll(async () => {
  reconfigure({ SMTP_URL: "smtp://127.0.0.1:1", MAIL_FROM: "desk@saltpan.example" });
  await twoShops(NOW);
  await migrateAll();
  id = await createPerson({ name: "Maren Tolliver", email: KNOWN, password: PASSWORD }, NOW);
});
beforeEach(() => directory().write((tx) => tx.mail.deleteMany({})));
afterAll(async () => {
  reconfigure({ SMTP_URL: undefined, MAIL_FROM: undefined });
  await closeDirectory();
});

const rows = () => directory().read.mail.findMany({ orderBy: { id: "asc" } });

/** Sends what waits at `at`, and answers what arrived; a mail server that refuses throws. */
async function post(at: Date, refuses = false): Promise<Mail[]> {
  const got: Mail[] = [];
  const send = async (mail: Mail) => {
    if (refuses) throw new Error("451 come back later");
    got.push(mail);
  };
  await sendDue(
    directoryMailQueue(ORIGIN, () => at),
    { send },
    (none: never) => none,
  );
  return got;
}

const linkIn = (mail: Mail | undefined, path: string) =>
  new RegExp(`${ORIGIN}/${path}/(\\S+)`).exec(mail?.text ?? "")?.[1] ?? "";

/** All but what differs by itself: number, address, and the id of a sign-up. */
const shape = ({ id: _, to: __, detail, ...row }: Awaited<ReturnType<typeof rows>>[number]) => ({
  ...row,
  detail: Object.keys(detail as object),
});

describe("asking for a new password", () => {
  it("leaves the same behind for a known and an unknown address, and nothing secret", async () => {
    for (const to of [KNOWN, UNKNOWN]) await sendPeopleMail({ kind: "reset", to, detail: {} }, NOW);
    const [known, unknown] = await rows();
    expect(known && shape(known)).toEqual(unknown && shape(unknown));
    expect(await directory().read.reset.count()).toBe(0);
  });

  it("sends a link to the known one alone, which works once, and nothing waits any more", async () => {
    for (const to of [UNKNOWN, KNOWN, UNKNOWN]) await sendPeopleMail({ kind: "reset", to, detail: {} }, NOW);
    const got = await post(NOW);
    expect(got.map((mail) => mail.to)).toEqual([KNOWN]);
    expect(await rows()).toEqual([]);
    const token = linkIn(got[0], "new-password");
    await resetPassword(token, "another one, longer", NOW);
    await expect(resetPassword(token, "a third one, longer", NOW)).rejects.toThrow(/used or over/);
    await authenticate(KNOWN, "another one, longer", NOW);
    // That it was changed is told to its owner.
    expect((await post(NOW)).map((mail) => mail.subject)).toEqual(["Your password was changed"]);
  });
});

describe("asking to open a shop", () => {
  const wish = { shopName: "Saltpan Carburettor Works", country: "AU", altitudeM: 410 };
  const ask = async (email: string, at = NOW) =>
    keepSignUp(await readyPerson({ name: "Somebody", email, password: PASSWORD }), wish, at);

  it("leaves the same behind for a known and an unknown address; each owner is written to", async () => {
    await ask(KNOWN);
    await ask(UNKNOWN);
    const [known, unknown] = await rows();
    expect(known && shape(known)).toEqual(unknown && shape(unknown));
    const got = await post(NOW);
    expect(got.map((mail) => [mail.to, mail.subject])).toEqual([
      [KNOWN, "You have a sign-in at Throttlewright already"],
      [UNKNOWN, "Open Saltpan Carburettor Works"],
    ]);
    expect(linkIn(got[0], "signup")).toBe("");
    expect(linkIn(got[1], "signup")).not.toBe("");
  });

  it("is finished by the mail's link and the password together, within a day", async () => {
    await ask(UNKNOWN);
    const token = linkIn((await post(NOW))[0], "signup");
    expect((await signUpOf(token, NOW))?.shopName).toBe(wish.shopName);
    await expect(provenSignUp(token, "what its reader guessed", NOW)).rejects.toThrow(/not the password/);
    expect(await provenSignUp(token, PASSWORD, NOW)).toMatchObject({ email: UNKNOWN, altitudeM: 410 });
    const late = inMinutes(24 * 60 + 1);
    await expect(provenSignUp(token, PASSWORD, late)).rejects.toThrow(/used or over/);
    await sweepSignUps(late);
    expect(await directory().read.signUp.count()).toBe(0);
  });
});

describe("the directory's mail queue", () => {
  const mail: MailToQueue = { kind: "password changed", to: KNOWN, detail: {} };

  it("tries again what did not get away, later each time, and keeps why", async () => {
    await sendPeopleMail(mail, NOW);
    expect(await post(NOW, true)).toEqual([]);
    expect((await rows())[0]).toMatchObject({ tries: 1, failure: "451 come back later" });
    // Not yet: it was put off by a minute, then by five, as a shop's own mail is.
    expect(await post(inMinutes(0.5))).toEqual([]);
    expect(await post(inMinutes(1), true)).toEqual([]);
    expect(await post(inMinutes(5.5))).toEqual([]);
    expect(await post(inMinutes(6))).toHaveLength(1);
    expect(await rows()).toEqual([]);
  });

  it("sends each mail once with two senders at it", async () => {
    for (let n = 0; n < 8; n++) await sendPeopleMail({ ...mail, to: `p${n}@saltpan.example` }, NOW);
    const got = (await Promise.all([post(NOW), post(NOW)])).flat();
    expect(got.map((one) => one.to).sort()).toEqual(
      Array.from({ length: 8 }, (_, n) => `p${n}@saltpan.example`),
    );
  });

  it("finds a mail again whose sender was stopped before it said what became of it", async () => {
    await sendPeopleMail(mail, NOW);
    const stopped = directoryMailQueue(ORIGIN, () => NOW);
    expect(await stopped.take()).not.toBeNull();
    expect(await post(NOW)).toEqual([]);
    expect(await post(inMinutes(1))).toHaveLength(1);
  });

  it("forgets what is of no use any more", async () => {
    await sendPeopleMail({ kind: "reset", to: KNOWN, detail: {} }, NOW);
    const late = inMinutes(121);
    expect(await post(late)).toEqual([]);
    expect(await sweepMails(late)).toBe(1);
  });

  it("holds a bounded number: beyond it what was asked for is refused, and what only tells stays away", async () => {
    await directory().write((tx) =>
      tx.mail.createMany({
        data: Array.from({ length: 5000 }, () => ({
          ...mail,
          createdAt: NOW,
          nextAt: NOW,
          expiresAt: inMinutes(60),
        })),
      }),
    );
    await expect(sendPeopleMail({ kind: "reset", to: KNOWN, detail: {} }, NOW)).rejects.toThrow(
      /Too many mails/,
    );
    await sendPeopleMail(mail, NOW);
    expect(await directory().read.mail.count()).toBe(5000);
  });

  it("takes nothing where no mail is set up", async () => {
    reconfigure({ SMTP_URL: undefined, MAIL_FROM: undefined });
    await sendPeopleMail(mail, NOW);
    reconfigure({ SMTP_URL: "smtp://127.0.0.1:1", MAIL_FROM: "desk@saltpan.example" });
    expect(await rows()).toEqual([]);
  });
});

describe("a sign-in", () => {
  const place = {
    agent: "Mozilla/5.0 (X11; Linux x86_64; rv:150.0) Gecko/20100101 Firefox/150.0",
    address: "198.51.100.7",
  };

  it("from a new device is told to its person by mail, from a known one not", async () => {
    await beginSession({ id, email: KNOWN }, { ...place, newDevice: false }, NOW, 7);
    expect(await post(NOW)).toEqual([]);
    await beginSession({ id, email: KNOWN }, { ...place, newDevice: true }, NOW, 7);
    const [told] = await post(NOW);
    expect(told?.to).toBe(KNOWN);
    expect(told?.text).toContain("Firefox on Linux\nfrom 198.51.100.7\nat 2026-11-25T00:30:00.000Z");
  });
});
