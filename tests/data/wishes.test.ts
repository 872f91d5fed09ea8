import { describe, expect, it } from "vitest";
import { acceptQuote } from "@/lib/data/acceptance/accept";
import { firstTimes } from "@/lib/data/bookings/times";
import { getJob } from "@/lib/data/jobs/get";
import { wishOfJob } from "@/lib/data/jobs/wishes";
import { getToday } from "@/lib/data/today/today";
import { dayOf, weekdayOf } from "@/lib/domain/schedule/localTime";
import { CustomerAcceptSchema } from "@/lib/schemas/quotes";
import { wishText } from "@/lib/schemas/wishes";
import { readyToQuote, sentQuote, yes } from "../support/quotes";
import { twoShops } from "../support/shops";

const NO = { wishWhen: "", wishFrom: "", wishNot: [], wishNote: "" } as const;

describe("a wish said with a yes", () => {
  it("is kept with it in one go, and shown on the job and on Today", async () => {
    const { a, b } = await twoShops();
    const sent = await sentQuote(a, await readyToQuote(a));
    const wish = {
      wishWhen: "from",
      wishFrom: "2026-12-07",
      wishNot: [5, 2],
      wishNote: "After four",
    } as const;
    const { jobId } = await acceptQuote(a, { ...yes(sent), ...wish });
    const kept = { fromDay: "2026-12-07", notDays: [2, 5], note: "After four" };
    expect(await wishOfJob(a, jobId)).toEqual(kept);
    expect((await getJob(a, jobId))?.wish).toEqual(kept);
    const today = await getToday(a, { quotes: true, invoices: true, stock: true });
    expect(today.unbooked.map((j) => j.wish)).toEqual([kept]);
    expect(wishText(kept, "en-AU")).toBe("from 7 December 2026, not Tuesday or Friday: After four");
    const mail = await a.read.mail.findFirstOrThrow({ where: { subject: { contains: "accepted" } } });
    expect(mail.text).toContain("You wish for it from 7 December 2026, not Tuesday or Friday: After four.");
    expect(await b.read.bookingWish.count()).toBe(0);
  });

  it("is none where nothing was said, and as soon as it can be where that was", async () => {
    const { a } = await twoShops();
    const ready = await readyToQuote(a);
    const silent = await acceptQuote(a, { ...yes(await sentQuote(a, ready)), ...NO });
    const soon = await acceptQuote(a, { ...yes(await sentQuote(a, ready)), ...NO, wishWhen: "soon" });
    expect(await wishOfJob(a, silent.jobId)).toBeNull();
    expect(await wishOfJob(a, soon.jobId)).toEqual({ fromDay: null, notDays: [], note: "" });
  });

  it("is refused with a day that is over, too far off, missing or spoken against, and no job is made", async () => {
    const { a } = await twoShops();
    const sent = await sentQuote(a, await readyToQuote(a));
    // The shop's day is 25 November 2026.
    for (const wish of [
      { wishFrom: "2026-11-24" },
      { wishFrom: "2027-11-26" },
      { wishWhen: "from" },
      { wishWhen: "soon", wishFrom: "2026-12-01" },
    ] as const)
      await expect(acceptQuote(a, { ...yes(sent), ...NO, ...wish })).rejects.toMatchObject({
        fields: { wishFrom: expect.any(String) },
      });
    expect([await a.read.job.count(), await a.read.acceptance.count()]).toEqual([0, 0]);
    const today = await acceptQuote(a, { ...yes(sent), ...NO, wishFrom: "2026-11-25" });
    expect(await wishOfJob(a, today.jobId)).toMatchObject({ fromDay: "2026-11-25" });
  });

  it("is read from a form only where it is a day of the calendar and leaves a day of the week", () => {
    const fields = { typedName: "Ines Valdborg", shownHash: "0".repeat(64) };
    const problem = (more: object) => {
      const read = CustomerAcceptSchema.safeParse({ ...fields, ...more });
      return read.success ? null : read.error.issues[0]?.path[0];
    };
    expect(problem({ wishFrom: "2026-02-30" })).toBe("wishFrom");
    expect(problem({ wishFrom: "next week" })).toBe("wishFrom");
    expect(problem({ wishNot: ["1", "2", "3", "4", "5", "6", "7"] })).toBe("wishNot");
    expect(problem({ wishNot: ["8"] })).toBe("wishNot");
    expect(problem({ wishWhen: "whenever" })).toBe("wishWhen");
    expect(problem({ wishFrom: "2028-02-29", wishNot: ["1"] })).toBeNull();
  });
});

describe("the first times for a job with a wish", () => {
  it("begin on the wished day and leave out the weekdays that do not suit", async () => {
    const { a } = await twoShops();
    const sent = await sentQuote(a, await readyToQuote(a, 5));
    const { jobId } = await acceptQuote(a, { ...yes(sent), ...NO, wishFrom: "2026-12-07", wishNot: [1, 3] });
    const { zone } = await a.read.settings.findUniqueOrThrow({ where: { id: 1 } });
    const open = await firstTimes(a, jobId, 6);
    expect(dayOf(open.times[0]?.startsAt ?? 0, zone) < "2026-12-07").toBe(true);
    const wish = await wishOfJob(a, jobId);
    const { times } = await firstTimes(a, jobId, 6, wish);
    expect(times.length).toBe(6);
    const fridays = await firstTimes(a, jobId, 6, { fromDay: null, notDays: [1, 2, 3, 4, 6, 7] });
    expect(fridays.times.map((t) => weekdayOf(dayOf(t.startsAt, zone)))).toEqual([5, 5, 5, 5, 5, 5]);
    const days = times.map((t) => dayOf(t.startsAt, zone));
    expect(days[0]).toBe("2026-12-08");
    for (const day of days) expect([1, 3]).not.toContain(weekdayOf(day));
  });

  it("begin now where the wished day is over", async () => {
    const { a } = await twoShops();
    const { jobId } = await acceptQuote(a, yes(await sentQuote(a, await readyToQuote(a, 5))));
    const past = { fromDay: "2026-11-01", notDays: [], note: "" };
    expect((await firstTimes(a, jobId, 3, past)).times).toEqual((await firstTimes(a, jobId, 3)).times);
  });
});
