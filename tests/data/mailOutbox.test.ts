import { beforeEach, describe, expect, it } from "vitest";
import { outboxOf } from "@/lib/data/mail/outbox";
import type { ShopHandle } from "@/lib/db/shop";
import { printEnclosed } from "@/lib/documents/enclosed";
import type { Letter } from "@/lib/outside/mail";
import { sendWaiting } from "@/lib/outside/mailOutbox";
import { twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;

beforeEach(async () => {
  ({ a, b } = await twoShops());
  for (const shop of [a, b])
    await shop.write(async (tx) => {
      for (let n = 0; n < 6; n++)
        await tx.mail.create({
          data: { to: `c${n}@example.com`, subject: `Letter ${n}`, text: "x", createdAt: shop.now },
        });
    });
});

const states = async (shop: ShopHandle) =>
  (await shop.read.mail.findMany({ orderBy: { id: "asc" } })).map((mail) => mail.state);

describe("the outbox", () => {
  it("sends each waiting letter once, oldest first, also with two senders at it; the other shop's stay", async () => {
    const got: Letter[] = [];
    const mailer = {
      send: async (letter: Letter) => {
        await new Promise((resume) => setTimeout(resume, 5));
        got.push(letter);
      },
    };
    const runs = await Promise.all([
      sendWaiting(outboxOf(a), mailer, printEnclosed),
      sendWaiting(outboxOf(a), mailer, printEnclosed),
    ]);
    expect(runs.reduce((sum, run) => sum + run.sent, 0)).toBe(6);
    expect(got.map((letter) => letter.subject).sort()).toEqual(
      Array.from({ length: 6 }, (_, n) => `Letter ${n}`),
    );
    expect(await states(a)).toEqual(Array(6).fill("sent"));
    expect(await states(b)).toEqual(Array(6).fill("waiting"));
  });

  it("keeps a letter that would not go, with why, and goes on with the next", async () => {
    const mailer = {
      send: async ({ to }: Letter) => {
        if (to === "c2@example.com") throw new Error("550 no such box");
      },
    };
    expect(await sendWaiting(outboxOf(a), mailer, printEnclosed)).toEqual({ sent: 5, failed: 1 });
    const mail = await a.read.mail.findFirstOrThrow({ where: { to: "c2@example.com" } });
    expect([mail.state, mail.failure]).toEqual(["failed", "550 no such box"]);
  });

  it("leaves everything waiting where mail is not set up", async () => {
    expect(await sendWaiting(outboxOf(a), null, printEnclosed)).toEqual({ sent: 0, failed: 0 });
    expect(await states(a)).toEqual(Array(6).fill("waiting"));
  });
});
