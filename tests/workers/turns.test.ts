import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Turns } from "@/lib/workers/turns";

const LIMITS = { atOnce: 2, atOncePerShop: 1, waiting: 6, waitingPerShop: 3 };
const asked = () => new AbortController();
const settled = () => new Promise((resolve) => setImmediate(resolve));

/** Asks for a turn and notes in `order` when it begins. */
function ask(turns: Turns, shop: string, order: string[], name = shop, cut = asked()) {
  const end = { shop, begun: false, refused: false, done: (): void => undefined };
  void turns.take(shop, cut.signal).then((done) => {
    if (!done) end.refused = true;
    else {
      order.push(name);
      end.begun = true;
      end.done = done;
    }
  });
  return end;
}

describe("turns at the worker threads", () => {
  it("a shop with much to do holds one of two places; another shop's first work begins at once", async () => {
    const [turns, order] = [new Turns(LIMITS), [] as string[]];
    for (let n = 0; n < 3; n++) ask(turns, "saltpan", order, `saltpan ${n}`);
    await settled();
    expect(order).toEqual(["saltpan 0"]);
    ask(turns, "fjellrev", order);
    await settled();
    expect(order).toEqual(["saltpan 0", "fjellrev"]);
  });

  it("shops take turns, whoever asked more often", async () => {
    const [turns, order] = [new Turns({ ...LIMITS, atOnce: 1 }), [] as string[]];
    const first = ask(turns, "saltpan", order, "saltpan 0");
    await settled();
    const more = [1, 2].map((n) => ask(turns, "saltpan", order, `saltpan ${n}`));
    const other = ask(turns, "fjellrev", order);
    const third = ask(turns, "tarrant", order);
    for (const one of [first, other, third, ...more]) {
      one.done();
      await settled();
    }
    expect(order).toEqual(["saltpan 0", "fjellrev", "tarrant", "saltpan 1", "saltpan 2"]);
  });

  it("more than a few waiting of one shop are refused, and other shops still wait", async () => {
    const [turns, order] = [new Turns(LIMITS), [] as string[]];
    const all = Array.from({ length: 6 }, () => ask(turns, "saltpan", order));
    await settled();
    expect(all.map((one) => one.refused)).toEqual([false, false, false, false, true, true]);
    const others = ["fjellrev", "tarrant", "orme"].map((shop) => ask(turns, shop, order));
    await settled();
    expect(others.some((one) => one.refused)).toBe(false);
  });

  it("all that waits is bounded too, however many shops ask", async () => {
    const [turns, order] = [new Turns(LIMITS), [] as string[]];
    const all = Array.from({ length: 12 }, (_, n) => ask(turns, `shop ${n}`, order));
    await settled();
    expect(order).toHaveLength(2);
    expect(all.filter((one) => one.refused)).toHaveLength(4);
    expect(turns.waiting).toBe(6);
  });

  it("work that is given up leaves the queue, and its place goes to another", async () => {
    const [turns, order] = [new Turns({ ...LIMITS, atOnce: 1 }), [] as string[]];
    const first = ask(turns, "saltpan", order);
    const cut = asked();
    const given = ask(turns, "fjellrev", order, "fjellrev", cut);
    ask(turns, "tarrant", order);
    cut.abort();
    await settled();
    expect(given.refused).toBe(true);
    first.done();
    await settled();
    expect(order).toEqual(["saltpan", "tarrant"]);
  });

  it("whatever is asked and ended, the limits hold and nobody waits beside a free place", async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(fc.tuple(fc.nat(3), fc.boolean()), { maxLength: 60 }), async (steps) => {
        const [turns, order] = [new Turns(LIMITS), [] as string[]];
        let open: ReturnType<typeof ask>[] = [];
        const endOne = () => {
          const one = open.find((each) => each.begun);
          one?.done();
          open = open.filter((each) => each !== one);
        };
        for (const [shop, ends] of steps) {
          if (ends) endOne();
          else open.push(ask(turns, `shop ${shop}`, order));
          await settled();
          open = open.filter((each) => !each.refused);
          const running = open.filter((each) => each.begun);
          expect(turns.busy).toBe(running.length);
          expect(turns.busy).toBeLessThanOrEqual(LIMITS.atOnce);
          expect(turns.waiting).toBeLessThanOrEqual(LIMITS.waiting);
          if (turns.busy < LIMITS.atOnce)
            for (const each of open.filter((one) => !one.begun))
              expect(running.map((one) => one.shop)).toContain(each.shop);
        }
        while (open.length > 0) {
          endOne();
          await settled();
        }
        expect([turns.busy, turns.waiting]).toEqual([0, 0]);
      }),
      { numRuns: 50 },
    );
  });
});
