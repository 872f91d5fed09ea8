import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Access, Operation } from "@/lib/domain/packages/recipe";
import { accessMap } from "@/lib/domain/plan/accesses";
import { leastOpenings } from "@/lib/domain/plan/order";
import type { WorkPlan } from "@/lib/domain/plan/plan";
import { planWork, replan } from "@/lib/domain/plan/planWork";
import { MOST_WORK } from "@/lib/domain/plan/sequence";
import { Refusal } from "@/lib/domain/refusal";
import { hardClique, hardSides } from "../bench/hardWork";
import { bruteMinutes } from "./bruteMinutes";

const access = (
  key: string,
  open: number,
  close: number,
  needs: string[] = [],
  excludes: string[] = [],
): Access => ({
  key,
  name: key,
  openMinutes: open,
  closeMinutes: close,
  needs,
  excludes,
  closingChecks: [`${key} seated`],
  cautions: [`mind ${key}`],
  tools: ["JIS driver"],
});
const operation = (key: string, minutes: number, accesses: string[], after: string[] = []): Operation => ({
  key,
  name: key,
  instruction: `do ${key}`,
  minutes,
  grade: "tuner",
  accesses,
  after,
  parts: [],
  holdPoints: [],
  inspects: [],
  cautions: [],
  tools: [`tool of ${key}`],
});

/** Everything a plan must keep, checked step by step against what is open. Returns the minutes counted. */
function walk(plan: WorkPlan, operations: Operation[], accesses: Access[], openNow: string[] = []): number {
  const find = (key: string) => accesses.find((a) => a.key === key) as Access;
  const open = new Set(openNow);
  const done: string[] = [];
  let minutes = 0;
  for (const step of plan.steps) {
    minutes += step.minutes;
    if (step.kind === "open") {
      expect(open.has(step.key)).toBe(false);
      expect([...step.openAccesses].sort()).toEqual([...open].sort());
      for (const need of find(step.key).needs) expect(open.has(need)).toBe(true);
      for (const other of open) {
        expect(find(step.key).excludes).not.toContain(other);
        expect(find(other).excludes).not.toContain(step.key);
      }
      expect(step.minutes).toBe(find(step.key).openMinutes);
      open.add(step.key);
    } else if (step.kind === "close") {
      expect(open.delete(step.key)).toBe(true);
      for (const other of open) expect(find(other).needs).not.toContain(step.key);
      expect(step.checks).toEqual(find(step.key).closingChecks);
      expect([...step.openAccesses].sort()).toEqual([...open].sort());
    } else {
      const op = operations.find((o) => o.key === step.key) as Operation;
      for (const key of op.accesses) expect(open.has(key)).toBe(true);
      for (const before of op.after.filter((key) => operations.some((o) => o.key === key)))
        expect(done).toContain(before);
      expect([...step.openAccesses].sort()).toEqual([...open].sort());
      done.push(step.key);
    }
  }
  expect(open.size).toBe(0);
  expect([...done].sort()).toEqual(operations.map((o) => o.key).sort());
  return minutes;
}

const minutes = fc.integer({ min: 0, max: 20 });
/** Random bikes: accesses need only earlier ones; some exclude one another; operations that cannot be are left out. */
const randomWork = (mostOperations: number, mostAccesses: number, leastOperations = 0) =>
  fc
    .record({
      accesses: fc.array(
        fc.record({ open: minutes, close: minutes, need: fc.option(fc.nat(9)), not: fc.option(fc.nat(9)) }),
        { minLength: 1, maxLength: mostAccesses },
      ),
      operations: fc.array(
        fc.record({ minutes, uses: fc.array(fc.nat(9), { maxLength: 2 }), after: fc.option(fc.nat(20)) }),
        {
          minLength: leastOperations,
          maxLength: mostOperations,
        },
      ),
    })
    .map(({ accesses: raw, operations: rawOps }) => {
      const accesses = raw.map((r, i) =>
        access(`a${i}`, r.open, r.close, r.need !== null && i > 0 ? [`a${r.need % i}`] : [], []),
      );
      const closure = (keys: string[]): string[] => {
        const all = new Set(keys);
        for (const key of all)
          for (const need of accesses.find((a) => a.key === key)?.needs ?? []) all.add(need);
        return [...all];
      };
      const withExclusions = accesses.map((a, i) => {
        const other = raw[i]?.not;
        const key = other === null || other === undefined ? undefined : `a${other % accesses.length}`;
        const possible =
          key !== undefined && !closure([a.key]).includes(key) && !closure([key]).includes(a.key);
        return { ...a, excludes: possible && key !== undefined ? [key] : [] };
      });
      const legal = (keys: string[]) =>
        closure(keys).every((k) =>
          withExclusions.find((a) => a.key === k)?.excludes.every((x) => !closure(keys).includes(x)),
        );
      const usable = withExclusions.filter((a) => legal([a.key])).map((a) => a.key);
      const operations = rawOps.map((r, i) => {
        const uses = [...new Set(r.uses.flatMap((u) => usable[u % Math.max(1, usable.length)] ?? []))];
        return operation(
          `o${i}`,
          r.minutes,
          legal(uses) ? uses : uses.slice(0, 1),
          r.after !== null && i > 0 ? [`o${r.after % i}`] : [],
        );
      });
      return { accesses: withExclusions, operations, someOpen: closure(usable.slice(0, 1)) };
    });

describe("the work plan", () => {
  it("is valid and least, against trying every order and every set left open in between", () => {
    fc.assert(
      fc.property(randomWork(6, 5), fc.boolean(), ({ accesses, operations, someOpen }, halfway) => {
        const openNow = halfway ? someOpen : [];
        const plan = replan(operations, accesses, openNow);
        const counted = walk(plan, operations, accesses, openNow);
        expect(plan.minutes).toBe(counted);
        expect(plan.minutes).toBe(bruteMinutes(operations, accesses, openNow));
        expect(plan.exact).toBe(true);
        expect(plan.gapMinutes).toBe(0);
      }),
      { numRuns: 400 },
    );
  });

  it("is valid for long lists too, and its gap is never negative", () => {
    fc.assert(
      fc.property(randomWork(40, 10, 17), ({ accesses, operations }) => {
        const plan = planWork(operations, accesses);
        expect(walk(plan, operations, accesses)).toBe(plan.minutes);
        expect(plan.gapMinutes).toBeGreaterThanOrEqual(0);
        expect(plan.exact).toBe(plan.gapMinutes === 0);
      }),
      { numRuns: 30 },
    );
  });

  const tank = access("tank", 10, 12);
  const bowl = access("bowl", 4, 6, ["left"]);
  const left = access("left", 5, 5, ["tank"], ["right"]);
  const right = access("right", 5, 5, ["tank"]);
  const bike = [tank, left, right, bowl];
  const jets = operation("jets", 8, ["bowl"]);
  const slide = operation("slide", 15, ["right"]);
  const float = operation("float", 7, ["bowl"], ["slide"]);
  const screw = operation("screw", 3, ["left"]);

  it("opens the tank once and turns the carburettor as seldom as the order allows", () => {
    const plan = planWork([jets, slide, float, screw], bike);
    // Tank 22; slide 15 with right 10; then left 10 and bowl 10 once for jets 8, float 7 and screw 3: 85 minutes.
    expect(plan.minutes).toBe(85);
    expect(plan.steps.map((s) => `${s.kind} ${s.key}`).slice(0, 4)).toEqual([
      "open tank",
      "open right",
      "operation slide",
      "close right",
    ]);
    expect(plan.tools).toContain("JIS driver");
    expect(plan.tools).toContain("tool of float");
    walk(plan, [jets, slide, float, screw], bike);
  });

  it("says a caution when something is opened and its checks when it is closed", () => {
    const plan = planWork([screw], bike);
    expect(plan.steps.find((s) => s.kind === "open" && s.key === "left")?.cautions).toEqual(["mind left"]);
    expect(plan.steps.at(-1)).toMatchObject({
      kind: "close",
      key: "tank",
      checks: ["tank seated"],
      grade: "tuner",
      openAccesses: [],
    });
  });

  it("goes on from where the bike stands", () => {
    const plan = replan([jets, slide], bike, ["tank", "left", "bowl"]);
    expect(plan.steps[0]).toMatchObject({ kind: "operation", key: "jets" });
    expect(plan.minutes).toBe(8 + 6 + 5 + 5 + 15 + 5 + 12);
    expect(replan([], bike, ["tank"]).steps.map((s) => s.kind)).toEqual(["close"]);
  });

  it("refuses what cannot be: both sides at once, unknown accesses, circles, doubles, and a bike that stands wrong", () => {
    expect(() => planWork([operation("both", 1, ["left", "right"])], bike)).toThrow(/exclude each other/);
    expect(() => planWork([operation("lost", 1, ["saddle"])], bike)).toThrow(Refusal);
    expect(() => planWork([operation("x", 1, [], ["y"]), operation("y", 1, [], ["x"])], bike)).toThrow(
      /before itself/,
    );
    expect(() => planWork([jets, jets], bike)).toThrow(/twice/);
    expect(() =>
      planWork([operation("z", 1, ["p"])], [access("p", 1, 1, ["q"]), access("q", 1, 1, ["p"])]),
    ).toThrow(/needs itself/);
    expect(() => replan([jets], bike, ["left"])).toThrow(/closed/);
    expect(() => replan([jets], bike, ["tank", "left", "right"])).toThrow(/exclude each other/);
  });

  it("plans sixteen operations with exclusions exactly within the work that one plan may take", () => {
    for (const { operations, accesses } of fc.sample(randomWork(16, 10, 16), { numRuns: 200, seed: 16 }))
      expect(planWork(operations, accesses).exact).toBe(true);
    for (const { operations, accesses } of [hardSides(), hardClique()])
      expect(planWork(operations, accesses)).toMatchObject({ exact: true, gapMinutes: 0 });
  });
});

/** Accesses that all exclude one another, operations in chains over them: the hardest kind for the order to be proven. */
const allApart = fc
  .record({
    accesses: fc.array(fc.record({ open: minutes, close: minutes }), { minLength: 2, maxLength: 5 }),
    operations: fc.array(fc.record({ use: fc.nat(9), after: fc.option(fc.nat(20)) }), { maxLength: 7 }),
  })
  .map(({ accesses: raw, operations: rawOps }) => {
    const keys = raw.map((_, i) => `a${i}`);
    return {
      accesses: raw.map((r, i) =>
        access(
          `a${i}`,
          r.open,
          r.close,
          [],
          keys.filter((key) => key !== `a${i}`),
        ),
      ),
      operations: rawOps.map((r, i) =>
        operation(
          `o${i}`,
          1,
          [`a${r.use % raw.length}`],
          r.after !== null && i > 0 ? [`o${r.after % i}`] : [],
        ),
      ),
    };
  });

describe("accesses that all exclude one another", () => {
  it("are opened as seldom as the order allows, against trying every order", () => {
    fc.assert(
      fc.property(allApart, ({ accesses, operations }) => {
        const plan = planWork(operations, accesses);
        expect(plan.minutes).toBe(bruteMinutes(operations, accesses, []));
        expect(plan.exact).toBe(true);
      }),
      { numRuns: 300 },
    );
  });

  it("are opened again wherever other work must come between", () => {
    const accesses = [access("left", 4, 5, [], ["right"]), access("right", 6, 7, [], ["left"])];
    const chain = ["left", "right", "left", "right"].map((key, i) =>
      operation(`o${i}`, 1, [key], i > 0 ? [`o${i - 1}`] : []),
    );
    // Two openings of each: 2 x (4 + 5) + 2 x (6 + 7) and four minutes of work.
    expect(planWork(chain, accesses).minutes).toBe(48);
  });
});

/** Sides of two or three accesses that exclude one another, and operations that need one access of several sides. */
const sided = fc
  .record({
    sides: fc.array(fc.integer({ min: 2, max: 3 }), { minLength: 2, maxLength: 3 }),
    charges: fc.array(fc.record({ open: minutes, close: minutes }), { minLength: 9, maxLength: 9 }),
    operations: fc.array(
      fc.record({
        picks: fc.array(fc.option(fc.nat(2)), { minLength: 3, maxLength: 3 }),
        after: fc.option(fc.nat(9)),
      }),
      { maxLength: 7 },
    ),
    openNow: fc.array(fc.option(fc.nat(2)), { minLength: 3, maxLength: 3 }),
  })
  .map(({ sides, charges, operations: raw, openNow }) => {
    const key = (side: number, at: number) => `s${side}-${at % (sides[side] ?? 1)}`;
    const accesses = sides.flatMap((size, side) =>
      Array.from({ length: size }, (_, at) => {
        const { open, close } = charges[side * 3 + at] ?? { open: 1, close: 1 };
        const others = Array.from({ length: size }, (_x, n) => key(side, n)).filter(
          (other) => other !== key(side, at),
        );
        return access(key(side, at), open, close, [], others);
      }),
    );
    const chosen = (picks: readonly (number | null)[]) =>
      sides.flatMap((_, side) => {
        const pick = picks[side];
        return pick === null || pick === undefined ? [] : [key(side, pick)];
      });
    const operations = raw.map((r, i) =>
      operation(`o${i}`, 1, chosen(r.picks), r.after !== null && i > 0 ? [`o${r.after % i}`] : []),
    );
    return { accesses, operations, openNow: chosen(openNow) };
  });

describe("accesses in sides, of each of which one is open at a time", () => {
  it("are opened as seldom as the order allows, from whatever is open, against trying every order", () => {
    fc.assert(
      fc.property(sided, ({ accesses, operations, openNow }) => {
        const plan = replan(operations, accesses, openNow);
        expect(walk(plan, operations, accesses, openNow)).toBe(plan.minutes);
        expect(plan.minutes).toBe(bruteMinutes(operations, accesses, openNow));
        expect(plan.exact).toBe(true);
      }),
      { numRuns: 400 },
    );
  });

  it("cost at least what is said of them before the search, against trying every order", () => {
    fc.assert(
      fc.property(sided, ({ accesses, operations, openNow }) => {
        // Without any work the gap is told from the bound at the start alone.
        const { cost, bound } = leastOpenings(operations, accessMap(accesses), openNow, { left: 0 });
        const work = operations.reduce((sum, o) => sum + o.minutes, 0);
        const closing = openNow.reduce(
          (sum, key) => sum + (accesses.find((a) => a.key === key)?.closeMinutes ?? 0),
          0,
        );
        const least = bruteMinutes(operations, accesses, openNow) - work - closing;
        expect(bound).toBeLessThanOrEqual(least);
        expect(cost).toBeGreaterThanOrEqual(least);
      }),
      { numRuns: 400 },
    );
  });
});

describe("work of any size that a package may hold", () => {
  const dice = (seed: number) => () => {
    seed = Math.imul(seed ^ (seed >>> 15), 0x2c1b3c6d) + 0x9e3779b9;
    return (seed >>> 8) / 2 ** 24;
  };
  const large = (count: number, accesses: number, uses: number, exclusions: number, later: number) => {
    const chance = dice(count * 31 + exclusions);
    const pick = (below: number) => Math.floor(chance() * below);
    const apart = Array.from({ length: accesses }, () => new Set<number>());
    for (let n = 0; n < exclusions; n++) {
      const [a, b] = [pick(accesses), pick(accesses)];
      if (a !== b)
        for (const [one, other] of [
          [a, b],
          [b, a],
        ] as const)
          apart[one]?.add(other);
    }
    return {
      accesses: apart.map((others, a) =>
        access(
          `a${a}`,
          1 + pick(20),
          1 + pick(9),
          [],
          [...others].map((o) => `a${o}`),
        ),
      ),
      operations: Array.from({ length: count }, (_, i) => {
        const needed: number[] = [];
        for (let n = 0; n < uses; n++) {
          const a = pick(accesses);
          if (!needed.some((other) => other === a || apart[a]?.has(other))) needed.push(a);
        }
        const after = i > 0 && chance() < later ? [`o${pick(i)}`] : [];
        return operation(
          `o${i}`,
          5,
          needed.map((a) => `a${a}`),
          after,
        );
      }),
    };
  };

  it("is put in a valid order within the work that one plan may take, and the gap is told", () => {
    for (const [count, accesses, uses, exclusions, later] of [
      [18, 16, 3, 30, 0],
      [30, 16, 4, 20, 0.1],
      [52, 30, 3, 60, 0.3],
      [52, 60, 4, 500, 0.3],
      [120, 60, 4, 500, 0.3],
      [120, 60, 1, 1700, 0.2],
      [120, 16, 3, 10, 0.9],
    ] as const) {
      const { accesses: there, operations } = large(count, accesses, uses, exclusions, later);
      const work = { left: MOST_WORK };
      const found = leastOpenings(operations, accessMap(there), [], work);
      expect(work.left, `${count} operations`).toBeGreaterThan(-MOST_WORK / 4);
      const plan = planWork(operations, there);
      expect(walk(plan, operations, there)).toBe(plan.minutes);
      expect(plan.gapMinutes).toBe(found.cost - found.bound);
      expect(plan.exact).toBe(plan.gapMinutes === 0);
      expect(planWork(operations, there)).toEqual(plan);
    }
  });

  it("is the better ordered the more work may be spent on it", () => {
    const { accesses, operations } = large(52, 30, 3, 60, 0.3);
    const [none, some, most] = [0, MOST_WORK, 20 * MOST_WORK].map(
      (left) => leastOpenings(operations, accessMap(accesses), [], { left }).cost,
    );
    expect(some).toBeLessThanOrEqual(none ?? 0);
    expect(most).toBeLessThanOrEqual(some ?? 0);
  });
});
