import { beforeEach, describe, expect, it, vi } from "vitest";
import { getQuote } from "@/lib/data/quotes/get";
import { remindQuote } from "@/lib/data/quotes/remind";
import { renewLink } from "@/lib/data/quotes/send";
import { directory } from "@/lib/db/directory";
import { migrateAll } from "@/lib/db/migrate";
import type { ShopHandle } from "@/lib/db/shop";
import { noteOpening, openLink } from "@/lib/gate/customer";
import { ORIGIN, readyToQuote, sentQuote } from "../support/quotes";
import { as, twoShops } from "../support/shops";

const NOW = new Date("2026-11-25T00:30:00Z");
let address = 0;
let made: Promise<void> | undefined;
vi.mock("next/headers", () => ({
  headers: async () => new Headers({ "x-client-address": `192.0.2.${address}` }),
  cookies: async () => ({ set: () => undefined }),
}));
vi.mock("next/cache", () => ({ revalidatePath: () => undefined }));

/** Puts a shop into the directory, which the first of them makes. */
async function listed(shop: ShopHandle): Promise<void> {
  made ??= migrateAll();
  await made;
  await directory().write((tx) =>
    tx.shop.create({
      data: { id: shop.slug, slug: shop.slug, name: shop.slug, database: shop.slug, createdAt: NOW },
    }),
  );
}

beforeEach(() => {
  address += 1;
  vi.useFakeTimers({ now: NOW, toFake: ["Date"] });
  return () => vi.useRealTimers();
});

describe("a customer's link", () => {
  it("opens its one quote as the customer, and no other shop's", async () => {
    const { a, b } = await twoShops();
    await listed(a);
    await listed(b);
    const sent = await sentQuote(a, await readyToQuote(a));
    const link = await openLink(a.slug, sent.token);
    expect(link).toMatchObject({
      purpose: "quote",
      revisionId: sent.revisionId,
      jobId: null,
      shop: { by: { role: "customer" } },
    });
    // The same token at another shop's address says no more than a made-up one.
    expect(await openLink(b.slug, sent.token)).toMatchObject({ closed: "unknown" });
    expect(await openLink("no-such-shop", sent.token)).toMatchObject({ closed: "unknown" });
  });

  it("notes first and newest opening and how many, of all links of the quote together; a reload is none", async () => {
    const { a, b } = await twoShops();
    const sent = await sentQuote(a, await readyToQuote(a));
    const theirs = await sentQuote(b, await readyToQuote(b));
    const first = await a.read.customerLink.findFirstOrThrow();
    expect((await getQuote(a, sent.id, { margin: false }))?.opened).toBeNull();
    const at = (minutes: number) => as(a, { now: new Date(NOW.getTime() + minutes * 60_000) });
    for (const minutes of [0, 3, 9]) await noteOpening({ shop: at(minutes), id: first.id });
    const opened = async () => (await getQuote(a, sent.id, { margin: false }))?.opened;
    expect(await opened()).toEqual({ firstAt: NOW, lastAt: NOW, times: 1 });
    // Several pages that load at once are one opening.
    await Promise.all([1, 2, 3].map(() => noteOpening({ shop: at(60), id: first.id })));
    await remindQuote(at(100), { id: sent.id, version: 2, words: "", origin: ORIGIN });
    const further = await a.read.customerLink.findFirstOrThrow({ orderBy: { id: "desc" } });
    await noteOpening({ shop: at(200), id: further.id });
    expect(await opened()).toEqual({ firstAt: NOW, lastAt: at(200).now, times: 3 });
    expect((await getQuote(b, theirs.id, { margin: false }))?.opened).toBeNull();
  });

  it("does not open when altered, expired or ended by a newer one", async () => {
    const { a } = await twoShops();
    await listed(a);
    const sent = await sentQuote(a, await readyToQuote(a));
    const altered = `${sent.token.slice(0, -1)}${sent.token.endsWith("A") ? "B" : "A"}`;
    expect(await openLink(a.slug, altered)).toMatchObject({ closed: "unknown" });
    expect(await openLink(a.slug, `${sent.token}x`)).toMatchObject({ closed: "unknown" });
    vi.setSystemTime(new Date("2026-12-09T12:59:59Z"));
    expect(await openLink(a.slug, sent.token)).toMatchObject({ purpose: "quote" });
    vi.setSystemTime(new Date("2026-12-09T13:00:00Z"));
    expect(await openLink(a.slug, sent.token)).toMatchObject({ closed: "over" });
    vi.setSystemTime(NOW);
    await renewLink(a, { id: sent.id, version: 2, origin: ORIGIN });
    expect(await openLink(a.slug, sent.token)).toMatchObject({ closed: "over" });
  });

  it("is guessed at no more than 60 times in ten minutes from one address, and opens there all the same", async () => {
    const { a } = await twoShops();
    await listed(a);
    const sent = await sentQuote(a, await readyToQuote(a));
    for (let n = 0; n < 60; n++)
      expect(await openLink(a.slug, "x".repeat(27))).toMatchObject({ closed: "unknown" });
    expect(await openLink(a.slug, "x".repeat(27))).toMatchObject({ closed: "too often" });
    expect(await openLink(a.slug, sent.token)).toMatchObject({ revisionId: sent.revisionId });
    vi.setSystemTime(new Date(NOW.getTime() + 11 * 60_000));
    expect(await openLink(a.slug, "x".repeat(27))).toMatchObject({ closed: "unknown" });
  });

  it("is opened with its photos any number of times: only what does not open counts", async () => {
    const { a } = await twoShops();
    await listed(a);
    const sent = await sentQuote(a, await readyToQuote(a));
    const before = await directory().read.attempt.count();
    for (let n = 0; n < 300; n++)
      expect(await openLink(a.slug, sent.token)).toMatchObject({ revisionId: sent.revisionId });
    expect(await directory().read.attempt.count()).toBe(before);
  });
});
