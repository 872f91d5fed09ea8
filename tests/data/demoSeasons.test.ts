import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { buildDemo } from "@/demo/build";
import type { End } from "@/demo/seasons/settle";
import { reconfigure } from "@/lib/configuration/configuration";
import { problemsOf } from "@/lib/data/books/invariants";
import { closeDirectory, directory } from "@/lib/db/directory";
import { migrateAll } from "@/lib/db/migrate";
import { closeShops, type ShopHandle } from "@/lib/db/shop";
import { handleFor } from "@/lib/gate/handle";

const NOW = new Date("2026-11-25T00:24:00Z");
const ENDS: readonly End[] = [
  "paid",
  "late",
  "in parts",
  "unpaid",
  "written off",
  "bounced",
  "overpaid",
  "credited",
  "credited in part",
  "refunded",
];
const folder = mkdtempSync(join(tmpdir(), "throttlewright-seasons-"));
const shops: Record<string, ShopHandle> = {};

beforeAll(async () => {
  await closeShops();
  await closeDirectory();
  reconfigure({ DATA_DIR: folder, DEMO_PASSWORD: "bowl-brass-jet-1234" });
  await migrateAll(() => undefined);
  await buildDemo(NOW, {
    alone: true,
    saltpan: { from: -170, to: -120, small: 10, packages: 3, sales: 8, bikes: 9, ends: ENDS },
    fjellrev: { from: -100, to: -60, small: 4, packages: 1, sales: 2, bikes: 4 },
  });
  const by = { personId: "looker", name: "Looker", role: "owner" as const, staffId: null };
  for (const place of await directory().read.shop.findMany({
    select: { slug: true, database: true, server: true },
    orderBy: { slug: "asc" },
  }))
    shops[place.slug] = handleFor(place, by, NOW);
}, 180_000);

afterAll(async () => {
  await closeShops();
  await closeDirectory();
  rmSync(folder, { recursive: true, force: true });
});

const SLUGS = ["fjellrev", "saltpan"] as const;
const shopCalled = (slug: string) => shops[slug] as ShopHandle;

describe("the seasons of the demo shops", () => {
  it.each(SLUGS)("leave books that add up: %s", async (slug) => {
    expect(await problemsOf(shopCalled(slug))).toEqual([]);
  });

  it.each(SLUGS)("number and date every series of documents upwards: %s", async (slug) => {
    const { read } = shopCalled(slug);
    for (const kind of ["invoice", "creditNote", "receipt"] as const) {
      const rows = await read.invoice.findMany({
        where: { kind, state: "issued" },
        select: { number: true, issuedOn: true },
        orderBy: { number: "asc" },
      });
      const days = rows.map((row) => row.issuedOn);
      expect(days).toEqual(days.toSorted());
    }
    for (const rows of [
      await read.quote.findMany({
        select: { sequence: true, createdAt: true },
        orderBy: { sequence: "asc" },
      }),
      await read.job.findMany({ select: { sequence: true, createdAt: true }, orderBy: { sequence: "asc" } }),
    ]) {
      expect(rows.length).toBeGreaterThan(4);
      expect(rows).toEqual(rows.toSorted((a, b) => a.createdAt.getTime() - b.createdAt.getTime()));
    }
  });

  it("end in every way that money goes: late, in parts, written off, bounced, credited, given back, kept", async () => {
    const { read } = shopCalled("saltpan");
    const rows = await read.payment.groupBy({ by: ["kind"], _count: true, orderBy: { kind: "asc" } });
    const count = (kind: string) => rows.find((row) => row.kind === kind)?._count ?? 0;
    for (const kind of ["bounced", "deposit", "overpayment", "refund", "writeOff"] as const)
      expect([kind, count(kind)]).not.toEqual([kind, 0]);
    expect(await read.invoice.count({ where: { kind: "creditNote" } })).toBeGreaterThan(2);
    const paid = await read.payment.findMany({
      where: { kind: "payment", invoiceId: { not: null } },
      select: { paidOn: true, invoice: { select: { dueOn: true } } },
      orderBy: { id: "asc" },
    });
    expect(paid.filter((one) => one.paidOn > (one.invoice?.dueOn ?? "")).length).toBeGreaterThan(1);
    expect(await read.jobAgreement.count({ where: { kind: "comeback" } })).toBeGreaterThan(0);
    expect(await read.sale.count()).toBeGreaterThan(4);
  });

  it("lie where they are asked for, and nothing is to come", async () => {
    for (const slug of SLUGS) {
      const { read } = shopCalled(slug);
      expect(await read.auditEntry.count({ where: { at: { gt: NOW } } })).toBe(0);
      const last = await read.job.findFirstOrThrow({ orderBy: { id: "desc" }, select: { createdAt: true } });
      expect(last.createdAt < new Date("2026-10-25T00:00:00Z")).toBe(true);
    }
    expect(await shopCalled("fjellrev").read.sale.count()).toBeGreaterThan(0);
  });
});
