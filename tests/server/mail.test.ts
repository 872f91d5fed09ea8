import { execFile, spawn } from "node:child_process";
import { promisify } from "node:util";
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { reconfigure } from "@/lib/configuration/configuration";
import { mailQueueOf } from "@/lib/data/mail/queue";
import { closeDirectory } from "@/lib/db/directory";
import type { ShopHandle } from "@/lib/db/shop";
import { printEnclosed } from "@/lib/documents/enclosed";
import { mailer } from "@/lib/outside/mail";
import { sendDue } from "@/lib/outside/mailQueue";
import { nodeArgs } from "../support/compiled";
import { putInDirectory } from "../support/directoryShops";
import { as, twoShops } from "../support/shops";
import { type MailServer, mailServer } from "../support/smtp";

let post: MailServer;
let a: ShopHandle;
let b: ShopHandle;

beforeAll(async () => {
  post = await mailServer();
  reconfigure({ SMTP_URL: post.url, MAIL_FROM: "Saltpan <desk@saltpan.example>" });
});
afterAll(async () => {
  reconfigure({ SMTP_URL: undefined, MAIL_FROM: undefined });
  await closeDirectory();
  await post.close();
});
beforeEach(async () => {
  post.received.length = 0;
  post.behave = () => undefined;
  ({ a, b } = await twoShops());
});

const write = (shop: ShopHandle, ...to: string[]) =>
  shop.write(async (tx) => {
    for (const one of to)
      await tx.mail.create({ data: { to: one, subject: `To ${one}`, text: "Hello", createdAt: shop.now } });
  });
const send = (shop: ShopHandle) => sendDue(mailQueueOf(shop), mailer(), printEnclosed);
const later = (minutes: number) => as(a, { now: new Date(a.now.getTime() + minutes * 60_000) });
const arrived = () => post.received.map(({ to }) => to[0]);
const messageId = (raw: string) => /^Message-ID: (.*)$/im.exec(raw)?.[1];

describe("a mail server that refuses for a while", () => {
  it("gets each mail once in the end, and the refused one holds up no other", async () => {
    await write(a, "first@example.com", "second@example.com", "third@example.com");
    post.behave = (at, to) =>
      at === "recipient" && to === "first@example.com" ? "450 try later" : undefined;
    expect(await send(a)).toEqual({ sent: 2, failed: 1 });
    expect(await send(later(1))).toEqual({ sent: 0, failed: 1 });
    expect(await send(later(5))).toEqual({ sent: 0, failed: 0 });
    post.behave = (at) => (at === "mail" ? "451 greylisted" : undefined);
    expect(await send(later(6))).toEqual({ sent: 0, failed: 1 });
    post.behave = () => undefined;
    expect(await send(later(21))).toEqual({ sent: 1, failed: 0 });
    expect(await send(later(10_000))).toEqual({ sent: 0, failed: 0 });
    expect(arrived()).toEqual(["second@example.com", "third@example.com", "first@example.com"]);
    expect(await a.read.mail.findFirstOrThrow({ where: { to: "first@example.com" } })).toMatchObject({
      state: "sent",
      tries: 4,
      failure: "",
    });
  });

  it("is not asked again for a mail it refused for good", async () => {
    await write(a, "nobody@example.com", "second@example.com");
    post.behave = (_, to) => (to === "nobody@example.com" ? "550 no such box" : undefined);
    expect(await send(a)).toEqual({ sent: 1, failed: 1 });
    const mail = await a.read.mail.findFirstOrThrow({ where: { to: "nobody@example.com" } });
    expect([mail.state, mail.failure]).toEqual(["failed", expect.stringContaining("550 no such box")]);
  });

  it("or that breaks off at one mail, still gets the others in the next rounds", async () => {
    await write(a, "breaks@example.com", "second@example.com");
    post.behave = (at, to) => (at === "mail" && to === "breaks@example.com" ? "drop" : undefined);
    expect(await send(a)).toEqual({ sent: 0, failed: 1 });
    expect(await send(a)).toEqual({ sent: 1, failed: 0 });
    expect(arrived()).toEqual(["second@example.com"]);
  });

  it("or is not there, leaves the mails waiting with why", async () => {
    reconfigure({ SMTP_URL: "smtp://127.0.0.1:9" });
    await write(a, "first@example.com", "second@example.com");
    expect(await send(a)).toEqual({ sent: 0, failed: 1 });
    reconfigure({ SMTP_URL: post.url });
    expect(await a.read.mail.findMany({ orderBy: { id: "asc" } })).toMatchObject([
      { state: "waiting", tries: 1, failure: expect.stringContaining("ECONNREFUSED") },
      { state: "waiting", tries: 0 },
    ]);
    expect(await send(later(1))).toEqual({ sent: 2, failed: 0 });
  });
});

describe("a server that is killed while it sends a mail", () => {
  it("sends it after the next start, under the same Message-ID, though nobody has that shop open", async () => {
    await putInDirectory([a, b]);
    await write(a, "first@example.com", "second@example.com");
    const seen: string[] = [];
    const there = Promise.withResolvers<void>();
    post.behave = (at, to) => {
      if (at !== "mail") return undefined;
      seen.push(to);
      there.resolve();
      // The mail is over, and no answer comes before the sender is dead.
      return new Promise(() => undefined);
    };
    const past = new Date(Date.now() - 10 * 60_000).toISOString();
    const child = spawn(process.execPath, [...nodeArgs("tests/support/sendMails.ts"), a.database, past], {
      stdio: "inherit",
    });
    const ended = new Promise((resolve) => child.once("exit", (_, signal) => resolve(signal)));
    await there.promise;
    child.kill("SIGKILL");
    expect(await ended).toBe("SIGKILL");
    const left = await a.read.mail.findFirstOrThrow({ where: { to: "first@example.com" } });
    expect([seen, left.state]).toEqual([["first@example.com"], "sending"]);

    post.behave = () => undefined;
    const { stdout } = await promisify(execFile)(process.execPath, nodeArgs("lib/server/roundOnce.ts"), {
      env: { ...process.env, ENV_FILE: "off" },
    });
    expect(stdout).toContain("2 mails sent and 0 not");
    expect(arrived().sort()).toEqual(["first@example.com", "second@example.com"]);
    const again = post.received.find(({ to }) => to[0] === "first@example.com");
    expect(messageId(again?.raw ?? "")).toBe(`<${left.messageId}@saltpan.example>`);
    expect((await a.read.mail.findMany()).map((mail) => mail.state)).toEqual(["sent", "sent"]);
  });
});
