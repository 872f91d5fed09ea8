import { beforeAll, describe, expect, it } from "vitest";
import { screenStore } from "@/app/_ui/screenStore";
import { cardScreenOf } from "@/app/s/[shop]/jobs/[id]/card/shown";
import { passStep } from "@/lib/data/jobs/pass";
import { takeBackPass } from "@/lib/data/jobs/takeBack";
import { startTime } from "@/lib/data/jobs/time/run";
import type { ShopHandle } from "@/lib/db/shop";
import { asSent, changeOf, MOST_OF_CHANGE, markOf } from "@/lib/gate/change";
import type { OpenShop } from "@/lib/gate/open";
import { shopSettings } from "@/lib/gate/settings";
import { makeJob } from "../support/jobs";
import { twoShops } from "../support/shops";

describe("a card's page after a pass, by what the pass answers", () => {
  let shop: OpenShop;
  let other: OpenShop;

  const opened = async (handle: ShopHandle): Promise<OpenShop> => {
    const { settings } = await shopSettings(handle, handle.by.personId);
    return { ...handle, settings, can: () => true } as unknown as OpenShop;
  };
  const read = async (jobId: number, of = shop) => {
    const screen = await cardScreenOf(of, { jobId });
    if (!screen) throw new Error("There is no such job.");
    return screen;
  };

  beforeAll(async () => {
    const { a, b } = await twoShops();
    [shop, other] = [await opened(a), await opened(b)];
  });

  it("shows the step that is next as the page does when it is read anew, step after step", async () => {
    const job = await makeJob(shop);
    const same = await makeJob(other);
    const elsewhere = markOf(await read(same.id, other));
    await startTime(shop, { jobId: job.id, stepId: job.steps[0] });
    let before = await read(job.id);
    let page = screenStore(asSent(before), markOf(before));
    const acts = [
      { at: 0, next: 1 },
      // Outside its limits: the job stops here, and the page says so.
      { at: 1, next: 1, readings: [{ holdPointId: job.reading, value: 14 }] },
      { at: 1, next: 2, readings: [{ holdPointId: job.reading, value: 3.1 }] },
      { at: 2, next: 3, checks: [job.check] },
    ];
    let changes = 0;
    for (const { at, next, readings = [], checks = [] } of acts) {
      expect(before.step?.id).toBe(job.steps[at]);
      const { id: stepId = 0, version = 0 } = before.step ?? {};
      await passStep(shop, { stepId, version, readings, checks, signatures: [] });
      const after = await read(job.id);
      expect(after.step?.id).toBe(job.steps[next]);
      const change = changeOf(before, after);
      before = after;
      if (!change) {
        // How a reading is measured is drawn by the server alone: the page is asked for.
        page = screenStore(asSent(after), markOf(after));
        continue;
      }
      changes += 1;
      expect(JSON.stringify(change.delta).length).toBeLessThanOrEqual(MOST_OF_CHANGE);
      expect(page.take(JSON.parse(JSON.stringify(change)))).toBe(true);
      expect(page.view()).toEqual(asSent(after));
    }
    expect(changes).toBeGreaterThan(1);
    expect(markOf(await read(same.id, other))).toBe(elsewhere);
  });

  it("has another mark once somebody else passed the step or took it back", async () => {
    const job = await makeJob(shop);
    const [first = 0] = job.steps;
    const before = markOf(await read(job.id));
    await passStep(shop, { stepId: first, version: 1, readings: [], checks: [], signatures: [] });
    const passed = await read(job.id);
    expect(markOf(passed)).not.toBe(before);
    const step = passed.card.steps.find((one) => one.id === first);
    expect(step?.state).toBe("done");
    await takeBackPass(shop, { stepId: first, version: 2 });
    expect(markOf(await read(job.id))).not.toBe(before);
  });

  it("does not change by time alone: what was read a minute later has the same mark", async () => {
    const job = await makeJob(shop);
    await startTime(shop, { jobId: job.id, stepId: job.steps[0] });
    const before = markOf(await read(job.id));
    const later = { ...shop, now: new Date(shop.now.getTime() + 60_000) };
    expect(markOf(await read(job.id, later))).toBe(before);
  });
});
