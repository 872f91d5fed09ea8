import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { KEPT_ACTS, type KeptAct, targetOf } from "@/lib/domain/offline/acts";
import { actTime, clockWords } from "@/lib/domain/offline/actTime";
import { KEPT, noRoom, tooOld } from "@/lib/domain/offline/bounds";
import { cardNow } from "@/lib/domain/offline/cardNow";
import { judgePass, type StepFacts } from "@/lib/domain/offline/judge";
import {
  afterAnswer,
  asNote,
  type Decision,
  decide,
  nextToSend,
  type SendAnswer,
} from "@/lib/domain/offline/queue";
import { answerBy, neededBy } from "@/lib/domain/offline/requests";

const NOW = Date.UTC(2026, 10, 29, 9, 0);
const MINUTE = 60_000;
const DAY = 86_400_000;
const REFUSED = { message: "No.", remedy: "Look.", mine: ["Float height: 18.2 mm"], theirs: ["passed"] };

function act(seq: number, change: Partial<KeptAct> = {}): KeptAct {
  return {
    seq,
    key: `key-${seq}-${change.act ?? "pass"}`,
    who: "shop:person",
    slug: "shop",
    act: "pass",
    jobId: 1,
    stepId: seq,
    said: `Passed: step ${seq}`,
    fields: [["stepId", String(change.stepId ?? seq)]],
    at: NOW + seq * MINUTE,
    offMs: 0,
    stops: false,
    bytes: 0,
    refused: null,
    ...change,
  };
}

/** A queue of some jobs, in the order in which it was made. */
const queues = fc
  .array(fc.record({ jobId: fc.integer({ min: 1, max: 3 }), act: fc.constantFrom(...KEPT_ACTS) }), {
    maxLength: 12,
  })
  .map((list) => list.map((one, at) => act(at + 1, one)));

/** What becomes of each try: an answer, or one that was lost after the server had done it. */
type Fate = "done" | "lost before" | "lost after" | "refused" | "signedOut";
const fates = fc.array(fc.constantFrom<Fate>("done", "lost before", "lost after", "refused", "signedOut"), {
  maxLength: 40,
});

/** Sends a queue against a server that does each key once, as fate has it, then undisturbed. Refusals are decided as told. */
function sendAll(start: readonly KeptAct[], fate: readonly Fate[], decisions: readonly Decision[]) {
  const server = new Map<string, KeptAct>();
  const dropped: string[] = [];
  let queue = start;
  const left = [...fate];
  const choices = [...decisions];
  for (let n = 0; n < 500 && queue.length > 0; n++) {
    const next = nextToSend(queue);
    if (!next) {
      const refused = queue.find((one) => one.refused) as KeptAct;
      const decision = choices.shift() ?? "theirs";
      const after = decide(queue, refused.seq, decision, `note-${refused.seq}-${n}`);
      if (decision === "theirs") dropped.push(refused.key);
      // An act without a step cannot become a note: then the shop's version is kept.
      queue = after === queue || after.includes(refused) ? decide(queue, refused.seq, "theirs", "") : after;
      continue;
    }
    const what = left.shift() ?? "done";
    if (what === "done" || what === "lost after") if (!server.has(next.key)) server.set(next.key, next);
    const answer: SendAnswer =
      what === "done"
        ? { is: "done" }
        : what === "refused" && !server.has(next.key)
          ? { is: "refused", refused: REFUSED }
          : what === "signedOut"
            ? { is: "signedOut" }
            : { is: "lost" };
    queue = afterAnswer(queue, next.seq, answer).acts;
  }
  return { queue, server, dropped };
}

describe("acts kept on a device", () => {
  it("arrive once each, in the order of their job, whatever is lost on the way", () => {
    fc.assert(
      fc.property(queues, fates, (queue, fate) => {
        const calm = fate.filter((one) => one !== "refused");
        const { queue: left, server } = sendAll(queue, calm, []);
        expect(left).toEqual([]);
        expect([...server.keys()].sort()).toEqual(queue.map((one) => one.key).sort());
        for (const job of [1, 2, 3])
          expect([...server.values()].filter((one) => one.jobId === job).map((one) => one.seq)).toEqual(
            queue.filter((one) => one.jobId === job).map((one) => one.seq),
          );
      }),
    );
  });

  it("are never dropped but by a person's decision, and keep their order through refusals", () => {
    const decisions = fc.array(fc.constantFrom<Decision>("theirs", "note", "again"), { maxLength: 12 });
    fc.assert(
      fc.property(queues, fates, decisions, (queue, fate, chosen) => {
        const { queue: left, server } = sendAll(queue, fate, chosen);
        expect(left).toEqual([]);
        const seqs = new Set([...server.values()].map((one) => one.seq));
        const lost = queue.filter((one) => !seqs.has(one.seq));
        // All that is missing was given up after a refusal.
        expect(lost.length).toBeLessThanOrEqual(fate.filter((one) => one === "refused").length);
        for (const job of [1, 2, 3]) {
          const arrived = [...server.values()].filter((one) => one.jobId === job).map((one) => one.seq);
          expect(arrived).toEqual([...arrived].sort((a, b) => a - b));
        }
      }),
    );
  });

  it("of a job wait behind a refused one of that job; other jobs go on", () => {
    const queue = [act(1, { refused: REFUSED }), act(2), act(3, { jobId: 2 })];
    expect(nextToSend(queue)?.seq).toBe(3);
    expect(nextToSend(queue.slice(0, 2))).toBeUndefined();
  });

  it("go from the device as somebody is removed from the shop, and stay while they are signed out", () => {
    const queue = [act(1), act(2)];
    expect(afterAnswer(queue, 1, { is: "removed" })).toEqual({ acts: [], go: "clear" });
    expect(afterAnswer(queue, 1, { is: "signedOut" })).toEqual({ acts: queue, go: "signIn" });
    expect(afterAnswer(queue, 1, { is: "lost" })).toEqual({ acts: queue, go: "later" });
  });

  it("become a note at their step, in their place and under a key of its own, or go again under their own", () => {
    const queue = [act(1, { refused: REFUSED, stops: true }), act(2)];
    const [note, after] = decide(queue, 1, "note", "note-key-1");
    expect(note).toMatchObject({ seq: 1, act: "noteStep", key: "note-key-1", refused: null, stops: false });
    expect(note?.fields).toEqual([
      ["stepId", "1"],
      ["text", "Not taken over from a device: Passed: step 1\nFloat height: 18.2 mm"],
    ]);
    expect(after).toBe(queue[1]);
    expect(decide(queue, 1, "again", "")[0]).toMatchObject({ key: queue[0]?.key, refused: null });
    expect(decide(queue, 1, "worked", "")[0]).toMatchObject({
      key: queue[0]?.key,
      fields: [...(queue[0]?.fields ?? []), ["worked", "yes"]],
      refused: null,
    });
    expect(decide(queue, 1, "theirs", "")).toEqual([queue[1]]);
    // Only what was refused is decided about.
    expect(decide(queue, 2, "theirs", "")).toEqual(queue);
    expect(asNote(act(1, { said: "x".repeat(3000) })).length).toBe(1000);
  });

  it("are kept once where twice makes no sense", () => {
    expect(targetOf(act(1))).toBe(targetOf(act(1, { act: "skip" })));
    expect(targetOf(act(1, { act: "takePart", fields: [["reservationId", "7"]] }))).toBe("part 7");
    expect(targetOf(act(1, { act: "noteStep" }))).toBeNull();
  });
});

describe("a card counted on with what waits", () => {
  const steps = [1, 2, 3, 4].map((id) => ({ id, todo: id > 1 }));

  it("brings the next step up, and starts and stops the clock", () => {
    expect(cardNow(1, steps, null, [])).toMatchObject({ next: 2, runningSince: null, stopped: null });
    const passed = [
      act(1, { stepId: 2 }),
      act(2, { act: "start", stepId: 3 }),
      act(3, { jobId: 2, stepId: 3 }),
    ];
    expect(cardNow(1, steps, null, passed)).toMatchObject({ next: 3, runningSince: NOW + 2 * MINUTE });
    const elsewhere = [...passed, act(4, { act: "start", jobId: 2 })];
    expect(cardNow(1, steps, null, elsewhere).runningSince).toBeNull();
    const ran = { jobId: 1, startedAt: NOW - MINUTE };
    expect(cardNow(1, steps, ran, []).runningSince).toBe(NOW - MINUTE);
    expect(cardNow(1, steps, ran, [act(1, { act: "stop" })]).runningSince).toBeNull();
    const all = [2, 3, 4].map((id) => act(id, { act: id === 3 ? "skip" : "pass" }));
    expect(cardNow(1, steps, null, all).next).toBeNull();
  });

  it("stays where a reading lies outside its limits", () => {
    const stopped = cardNow(1, steps, null, [act(1, { stepId: 2, stops: true })]);
    expect(stopped).toMatchObject({ next: 2, stopped: { seq: 1 } });
  });

  it("shows no step twice and leaves none out: done and waiting steps, then the next", () => {
    fc.assert(
      fc.property(fc.shuffledSubarray([2, 3, 4]), (passed) => {
        const now = cardNow(
          1,
          steps,
          null,
          passed.map((stepId, at) => act(at + 1, { stepId })),
        );
        const open = steps.filter((step) => step.todo && !now.waiting.has(step.id));
        expect(now.next).toBe(open[0]?.id ?? null);
        expect(open.length).toBe(3 - passed.length);
      }),
    );
  });
});

describe("the moment of an act", () => {
  const at = NOW - 20 * MINUTE;

  it("is right whatever the device's clock shows, as long as it is left alone", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -400 * DAY, max: 400 * DAY }),
        fc.integer({ min: 0, max: 7 * DAY }),
        (wrong, ago) => {
          const made = NOW - ago;
          const time = actTime({ at: made + wrong, sent: NOW + wrong, offMs: -wrong, arrived: NOW });
          expect(time.at).toBe(made);
          expect(time.clock).toBe(Math.abs(wrong) > 2 * MINUTE ? "corrected" : "right");
        },
      ),
    );
  });

  it("is never later than its arrival, and not more than eight days before", () => {
    const ahead = actTime({ at: NOW + MINUTE, sent: NOW, offMs: null, arrived: NOW });
    expect(ahead).toMatchObject({ at: NOW, clock: "doubtful" });
    expect(actTime({ at: NOW - 9 * DAY, sent: NOW, offMs: 0, arrived: NOW }).at).toBeNull();
  });

  it("is said to be doubtful where the clock was set while the act waited", () => {
    const set = actTime({ at, sent: NOW + 3_600_000, offMs: 0, arrived: NOW });
    expect(set.clock).toBe("doubtful");
    expect(clockWords(set)).toContain("was set");
    expect(clockWords({ clock: "corrected", offMs: 5 * MINUTE })).toContain("5 minutes behind");
    expect(clockWords({ clock: "corrected", offMs: -180 * MINUTE })).toContain("3 hours ahead");
    expect(clockWords(actTime({ at, sent: NOW + 500, offMs: null, arrived: NOW }))).toBeNull();
  });
});

describe("a pass judged on the device", () => {
  const facts: StepFacts = {
    holds: [
      {
        id: 5,
        kind: "reading",
        name: "Float height",
        unit: "mm",
        low: 18,
        high: 19,
        measures: "",
        asksCarburettor: false,
      },
      {
        id: 6,
        kind: "check",
        name: "O-ring seated",
        unit: "",
        low: null,
        high: null,
        measures: "",
        asksCarburettor: false,
      },
    ],
    parts: [{ id: 9, name: "Main jet (MJ-105)" }],
    jets: [],
  };
  const whole: [string, string][] = [
    ["readings.5", "18,5"],
    ["units.5", "mm"],
    ["checks[]", "6"],
    ["parts.9", "used"],
  ];
  const without = (name: string, ...more: [string, string][]) => [
    ...whole.filter(([one]) => one !== name),
    ...more,
  ];

  it("passes once all is read, ticked and accounted for", () => {
    expect(judgePass(facts, whole)).toEqual({ is: "passes" });
    const reason: [string, string][] = [
      ["parts.9", "not"],
      ["why.9", "The old one is good."],
    ];
    expect(judgePass(facts, without("parts.9", ...reason))).toEqual({ is: "passes" });
  });

  it("says what is missing by the field's name", () => {
    const lacks = (fields: [string, string][]) => {
      const verdict = judgePass(facts, fields);
      return verdict.is === "lacks" ? Object.keys(verdict.fields) : [];
    };
    expect(lacks([])).toEqual(["readings.5", "checks[]", "parts.9"]);
    expect(lacks(without("readings.5", ["readings.5", "soon"]))).toEqual(["readings.5"]);
    expect(lacks(without("parts.9", ["parts.9", "not"], ["why.9", " "]))).toEqual(["why.9"]);
    expect(lacks(without("units.5", ["units.5", "rpm"]))).toEqual(["readings.5"]);
  });

  it("stops at a reading outside its limits, in whatever unit it was read", () => {
    // 0.80 in = 20.32 mm by the inch of 25.4 mm exactly.
    const inches = without("readings.5", ["readings.5", "0.80 in"]);
    expect(judgePass(facts, inches)).toEqual({ is: "stops", outside: ["Float height 20.32 mm"] });
    expect(judgePass(facts, without("readings.5", ["readings.5", "17.9"])).is).toBe("stops");
  });
});

describe("what a device keeps", () => {
  it("has a bound in acts, in photos and in their bytes", () => {
    const some = (count: number, bytes: number) => Array.from({ length: count }, () => ({ bytes }));
    expect(noRoom(some(KEPT.mostActs - 1, 0), 0)).toBeNull();
    expect(noRoom(some(KEPT.mostActs, 0), 0)?.message).toContain("300 acts wait");
    expect(noRoom(some(KEPT.mostPhotos, 10), 0)).toBeNull();
    expect(noRoom(some(KEPT.mostPhotos, 10), 1)?.message).toContain("no more photos");
    expect(noRoom(some(1, KEPT.mostPhotoBytes - 5), 5)).toBeNull();
    expect(noRoom(some(1, KEPT.mostPhotoBytes - 5), 6)).not.toBeNull();
  });

  it("lasts a week", () => {
    expect(tooOld(NOW - 7 * DAY, NOW)).toBe(false);
    expect(tooOld(NOW - 7 * DAY - 1, NOW)).toBe(true);
    expect(tooOld(NOW + DAY, NOW)).toBe(false);
  });
});

describe("the worker", () => {
  const by = (path: string, mode = "navigate", method = "GET") => answerBy({ method, mode, path });

  it("answers for a shop's pages and what its cards need, and for nothing else", () => {
    expect(by("/s/saltpan/jobs/7/card")).toEqual({ by: "card", key: "/s/saltpan/jobs/7/card/kept" });
    expect(by("/s/saltpan/jobs/7/card/kept")).toEqual({ by: "kept", key: "/s/saltpan/jobs/7/card/kept" });
    expect(by("/s/saltpan/invoices")).toEqual({ by: "page" });
    expect(by("/_next/static/chunks/a.js", "no-cors")).toEqual({ by: "asset" });
    expect(by("/api/s/saltpan/photos/3/small", "no-cors")).toEqual({ by: "picture" });
    for (const path of ["/", "/signin", "/account", "/c/saltpan/token", "/shut/saltpan"])
      expect(by(path)).toBeNull();
    for (const path of ["/s/saltpan/jobs/7/card", "/api/s/saltpan/invoices/1/pdf", "/api/s/saltpan/photos/3"])
      expect(by(path, "cors")).toBeNull();
    expect(by("/s/saltpan/jobs/7/card", "navigate", "POST")).toBeNull();
  });

  it("finds what a page needs in its text, each once, pictures up to a bound", () => {
    const html = `<script src="/_next/static/chunks/a1~b.js"></script>self.__next_f.push([1,"[\\"/_next/static/chunks/a1~b.js\\",\\"/_next/static/media/f.woff2\\"]"])<img src="/api/s/saltpan/photos/3/small"><img src="/api/s/saltpan/photos/4/small">`;
    expect(neededBy(html, 1)).toEqual({
      assets: ["/_next/static/chunks/a1~b.js", "/_next/static/media/f.woff2"],
      pictures: ["/api/s/saltpan/photos/3/small"],
    });
  });
});
