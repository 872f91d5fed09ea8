import { beforeAll, describe, expect, it } from "vitest";
import { takeBreak } from "@/lib/data/jobs/time/breaks";
import { endWorkOfIn } from "@/lib/data/jobs/time/leave";
import { getTimeEntry, listRunning } from "@/lib/data/jobs/time/list";
import { startTime, stopTime } from "@/lib/data/jobs/time/run";
import { changeRole, removeMember } from "@/lib/data/people/members";
import { settleStaff } from "@/lib/data/people/staff";
import { directory } from "@/lib/db/directory";
import type { ShopHandle } from "@/lib/db/shop";
import { putInDirectory } from "../support/directoryShops";
import { makeJob } from "../support/jobs";
import { as, type TwoShops, twoShops } from "../support/shops";

let shops: TwoShops;
let job: Awaited<ReturnType<typeof makeJob>>;

// 11:30 in shop a; the usual shift ends at 16:30 there.
const at = (hours: number) => new Date(shops.a.now.getTime() + hours * 3_600_000);

async function member(shop: ShopHandle, id: string, role: "tuner" | "owner" = "tuner"): Promise<ShopHandle> {
  const owner = await shop.read.staff.findUniqueOrThrow({ where: { id: shop.by.staffId ?? 0 } });
  await directory().write((tx) =>
    tx.membership.create({
      data: {
        person: {
          create: { id, email: `${id}@example.com`, name: id, passwordHash: "x", createdAt: shop.now },
        },
        shop: { connect: { slug: shop.slug } },
        role,
        createdAt: shop.now,
      },
    }),
  );
  const { id: staffId } = await shop.write((tx) =>
    tx.staff.create({ data: { personId: id, name: id, role: "tuner", hours: owner.hours ?? {} } }),
  );
  return as(shop, { by: { personId: id, name: id, role: "tuner", staffId } });
}

const entry = (shop: ShopHandle, id: number) => shop.read.timeEntry.findUniqueOrThrow({ where: { id } });
const runningOf = async (shop: ShopHandle) => (await listRunning(shop)).map((one) => one.id);

describe("the running time of somebody who leaves", () => {
  beforeAll(async () => {
    shops = await twoShops();
    await putInDirectory([shops.a, shops.b]);
    job = await makeJob(shops.a);
    await member(shops.a, "another-owner", "owner");
  });

  it("ends as they are taken out, with nobody else's, here or in another shop", async () => {
    const { a, b } = shops;
    const [lio, ilse] = [await member(a, "lio"), await member(a, "ilse")];
    const elsewhere = await makeJob(b);
    const mine = await startTime(lio, { jobId: job.id });
    const hers = await startTime(ilse, { jobId: job.id });
    const theirs = await startTime(b, { jobId: elsewhere.id });
    await removeMember(as(a, { now: at(2) }), "lio", endWorkOfIn);
    expect(await entry(a, mine.entryId)).toMatchObject({ endedAt: at(2), reason: "", version: 2 });
    expect(await runningOf(as(a, { now: at(2) }))).toEqual([hers.entryId]);
    expect((await entry(b, theirs.entryId)).endedAt).toBeNull();
    expect(await a.read.auditEntry.count({ where: { act: "time stopped", nounId: mine.entryId } })).toBe(1);
    await stopTime(as(ilse, { now: at(2) }), { entryId: hers.entryId });
  });

  it("ends with their shift where that is over, as a correction that the card shows and that can be put right", async () => {
    const { a } = shops;
    const { entryId } = await startTime(await member(a, "marr"), { jobId: job.id });
    await removeMember(as(a, { now: at(30) }), "marr", endWorkOfIn);
    const shown = await getTimeEntry(as(a, { now: at(30) }), entryId);
    expect(shown).toMatchObject({
      running: false,
      forgotten: false,
      endField: "2026-11-25T16:30",
      reason: "Ended with the shift: they may work here no longer; by Test Owner",
      corrections: [{ fromEnded: null }],
    });
  });

  it("ends with a break of theirs, and where a stop left it to the next round", async () => {
    const { a } = shops;
    const [quill, orme] = [await member(a, "quill"), await member(a, "orme")];
    const paused = await startTime(quill, { jobId: job.id });
    await takeBreak(as(quill, { now: at(1) }), { entryId: paused.entryId });
    const left = await startTime(orme, { jobId: job.id });
    await removeMember(as(a, { now: at(2) }), "quill", endWorkOfIn);
    expect(await a.read.timeBreak.count({ where: { endedAt: null } })).toBe(0);
    const broken = { ...a, write: () => Promise.reject(new Error("stopped")) };
    await expect(removeMember(broken, "orme", endWorkOfIn)).rejects.toThrow("stopped");
    expect(await runningOf(as(a, { now: at(2) }))).toEqual([left.entryId]);
    await settleStaff(as(a, { now: at(3) }), endWorkOfIn);
    expect((await entry(a, left.entryId)).endedAt).toEqual(at(3));
  });

  it("ends with a role that may not work on jobs, and goes on with one that may", async () => {
    const { a } = shops;
    const { entryId } = await startTime(await member(a, "desk"), { jobId: job.id });
    await changeRole(as(a, { now: at(1) }), { personId: "desk", role: "owner" }, endWorkOfIn);
    expect((await entry(a, entryId)).endedAt).toBeNull();
    await changeRole(as(a, { now: at(2) }), { personId: "desk", role: "books" }, endWorkOfIn);
    expect((await entry(a, entryId)).endedAt).toEqual(at(2));
  });
});
