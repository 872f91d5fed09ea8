import { beforeEach, describe, expect, it } from "vitest";
import { HELD_MS, hasMailDue, mailQueueOf, retryMail } from "@/lib/data/mail/queue";
import type { ShopHandle } from "@/lib/db/shop";
import { printEnclosed } from "@/lib/documents/enclosed";
import { MOST_TRIES } from "@/lib/domain/mail/tries";
import { type Mail, NotSent } from "@/lib/outside/mail";
import { sendDue } from "@/lib/outside/mailQueue";
import { as, twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;

beforeEach(async () => {
  ({ a, b } = await twoShops());
  for (const shop of [a, b])
    await shop.write(async (tx) => {
      for (let n = 0; n < 6; n++)
        await tx.mail.create({
          data: { to: `c${n}@example.com`, subject: `Mail ${n}`, text: "x", createdAt: shop.now },
        });
    });
});

const states = async (shop: ShopHandle) =>
  (await shop.read.mail.findMany({ orderBy: { id: "asc" } })).map((mail) => mail.state);
const minutesOn = (minutes: number) => as(a, { now: new Date(a.now.getTime() + minutes * 60_000) });
const mailTo = (to: string) => a.read.mail.findFirstOrThrow({ where: { to } });

/** A mailer that keeps what it took and fails as it is told. */
function failing(fail: (mail: Mail) => NotSent | undefined) {
  const got: Mail[] = [];
  return {
    got,
    send: async (mail: Mail) => {
      await new Promise((resume) => setTimeout(resume, 2));
      const cause = fail(mail);
      if (cause) throw cause;
      got.push(mail);
    },
  };
}
const send = (shop: ShopHandle, mailer: ReturnType<typeof failing>) =>
  sendDue(mailQueueOf(shop), mailer, printEnclosed);
const notTo = (to: string, how: "for good" | "for now" | "all mail") =>
  failing((mail) => (mail.to === to ? new NotSent("450 not now", how) : undefined));

describe("the mail queue", () => {
  it("sends each waiting mail once, oldest first, also with two senders at it; the other shop's stay", async () => {
    const mailer = failing(() => undefined);
    const runs = await Promise.all([send(a, mailer), send(a, mailer)]);
    expect(runs.reduce((sum, run) => sum + run.sent, 0)).toBe(6);
    expect(mailer.got.map((mail) => mail.subject).sort()).toEqual(
      Array.from({ length: 6 }, (_, n) => `Mail ${n}`),
    );
    expect(new Set(mailer.got.map((mail) => mail.messageId)).size).toBe(6);
    expect(await states(a)).toEqual(Array(6).fill("sent"));
    expect(await states(b)).toEqual(Array(6).fill("waiting"));
  });

  it("gives up at once a mail that the server will never take, with why, and goes on with the next", async () => {
    expect(await send(a, notTo("c2@example.com", "for good"))).toEqual({ sent: 5, failed: 1 });
    expect(await mailTo("c2@example.com")).toMatchObject({
      state: "failed",
      failure: "450 not now",
      tries: 1,
    });
    expect(await hasMailDue(minutesOn(1_000_000))).toBe(false);
  });

  it("tries a mail that was put off again, at growing waits over four days at least, and then gives it up", async () => {
    const mailer = notTo("c2@example.com", "for now");
    expect(await send(a, mailer)).toEqual({ sent: 5, failed: 1 });
    const waits: number[] = [];
    let at = 0;
    for (;;) {
      const { state, nextAt, tries } = await mailTo("c2@example.com");
      if (state === "failed") break;
      expect([state, tries]).toEqual(["waiting", waits.length + 1]);
      const due = ((nextAt as Date).getTime() - a.now.getTime()) / 60_000;
      waits.push(due - at);
      at = due;
      expect(await send(minutesOn(due - 0.01), mailer)).toEqual({ sent: 0, failed: 0 });
      expect(await send(minutesOn(due), mailer)).toEqual({ sent: 0, failed: 1 });
    }
    expect(waits).toEqual([...waits].sort((one, other) => one - other));
    expect(waits[0]).toBe(1);
    // RFC 5321, 4.5.4.1: "the give-up time generally needs to be at least 4-5 days".
    expect(at).toBeGreaterThanOrEqual(4 * 24 * 60);
    expect(waits).toHaveLength(MOST_TRIES - 1);
  });

  it("ends the run where no mail can go, and lets the mail that met it hold up no other", async () => {
    const mailer = notTo("c0@example.com", "all mail");
    expect(await send(a, mailer)).toEqual({ sent: 0, failed: 1 });
    expect(await states(a)).toEqual(Array(6).fill("waiting"));
    expect(await send(a, mailer)).toEqual({ sent: 5, failed: 0 });
    await a.write((tx) =>
      tx.mail.create({ data: { to: "late@example.com", subject: "Late", text: "x", createdAt: a.now } }),
    );
    expect(await send(minutesOn(1), mailer)).toEqual({ sent: 1, failed: 1 });
    expect(mailer.got.at(-1)?.to).toBe("late@example.com");
  });

  it("takes up a mail whose sender was stopped once its hold is over, under the same Message-ID, and not before", async () => {
    const stopped = await mailQueueOf(a).take();
    const held = HELD_MS / 60_000;
    const mailer = failing(() => undefined);
    expect((await send(minutesOn(held - 0.01), mailer)).sent).toBe(5);
    expect((await send(minutesOn(held), mailer)).sent).toBe(1);
    expect(mailer.got.at(-1)).toMatchObject({ to: "c0@example.com", messageId: stopped?.messageId });
    expect(await mailTo("c0@example.com")).toMatchObject({ state: "sent", tries: 2 });
  });

  it("takes up mails that were left as being sent before holds were kept", async () => {
    await a.write((tx) => tx.mail.updateMany({ data: { state: "sending" } }));
    expect(
      (
        await send(
          a,
          failing(() => undefined),
        )
      ).sent,
    ).toBe(6);
  });

  it("believes a slow sender that it sent a letter, and not that it failed one that another has taken", async () => {
    await a.write((tx) => tx.mail.updateMany({ where: { id: { gt: 1 } }, data: { state: "sent" } }));
    const slow = await mailQueueOf(a).take();
    const other = mailQueueOf(minutesOn(HELD_MS / 60_000));
    const taken = await other.take();
    expect([slow?.id, taken?.id, taken?.tries]).toEqual([slow?.id, slow?.id, 2]);
    if (!slow || !taken) throw new Error("Nothing was taken.");
    await mailQueueOf(a).failed(slow, "too late to say", true);
    expect(await mailTo("c0@example.com")).toMatchObject({ state: "sending", failure: "" });
    await mailQueueOf(a).sent(slow);
    await other.failed(taken, "gone", false);
    expect(await mailTo("c0@example.com")).toMatchObject({ state: "sent", failure: "" });
  });

  it("gives up a mail whose senders are stopped each time", async () => {
    for (let n = 0; n < MOST_TRIES; n++) {
      const { now } = minutesOn((n * HELD_MS) / 60_000);
      await a.write((tx) => tx.mail.updateMany({ where: { id: { gt: 1 } }, data: { state: "sent" } }));
      expect((await mailQueueOf(as(a, { now })).take())?.tries).toBe(n + 1);
    }
    expect(await mailQueueOf(minutesOn(MOST_TRIES * (HELD_MS / 60_000))).take()).toBeNull();
    expect(await mailTo("c0@example.com")).toMatchObject({
      state: "failed",
      failure: expect.stringContaining("stopped"),
    });
  });

  it("sends at most fifty in one run", async () => {
    await a.write(async (tx) => {
      for (let n = 0; n < 60; n++)
        await tx.mail.create({ data: { to: "x@example.com", subject: "x", text: "x", createdAt: a.now } });
    });
    const mailer = failing(() => undefined);
    expect(await send(a, mailer)).toEqual({ sent: 50, failed: 0 });
    expect(await send(a, mailer)).toEqual({ sent: 16, failed: 0 });
  });

  it("tries a mail again at once when someone asks for it, in this shop, and no mail that has gone", async () => {
    await send(a, notTo("c2@example.com", "for good"));
    const { id } = await mailTo("c2@example.com");
    await retryMail(a, id);
    expect(await mailTo("c2@example.com")).toMatchObject({ state: "waiting", tries: 0 });
    const mailer = failing(() => undefined);
    expect(await send(a, mailer)).toEqual({ sent: 1, failed: 0 });
    await expect(retryMail(a, id)).rejects.toMatchObject({ kind: "conflict" });
    await expect(retryMail(b, 10_000)).rejects.toMatchObject({ kind: "conflict" });
    expect(await b.read.auditEntry.count({ where: { noun: "mail" } })).toBe(0);
    expect(await a.read.auditEntry.count({ where: { noun: "mail", act: "retry" } })).toBe(1);
  });

  it("leaves everything waiting where mail is not set up", async () => {
    expect(await sendDue(mailQueueOf(a), null, printEnclosed)).toEqual({ sent: 0, failed: 0 });
    expect(await states(a)).toEqual(Array(6).fill("waiting"));
  });
});
