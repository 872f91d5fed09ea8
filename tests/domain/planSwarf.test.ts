import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { checkRecipe } from "@/lib/domain/packages/check";
import type { Access, Operation } from "@/lib/domain/packages/recipe";
import { goOn } from "@/lib/domain/plan/goOn";
import { planWork, replan } from "@/lib/domain/plan/planWork";
import { BREATHING } from "../support/breathing";

const access = (
  key: string,
  openMinutes: number,
  closeMinutes: number,
  more: Partial<Access> = {},
): Access => ({
  key,
  name: key,
  openMinutes,
  closeMinutes,
  needs: [],
  excludes: [],
  closingChecks: [],
  cautions: [],
  tools: [],
  ...more,
});
const operation = (key: string, accesses: string[], more: Partial<Operation> = {}): Operation => ({
  key,
  name: key,
  instruction: "",
  minutes: 5,
  grade: "bench",
  accesses,
  after: [],
  parts: [],
  holdPoints: [],
  inspects: [],
  cautions: [],
  tools: [],
  ...more,
});

const closure = (keys: readonly string[], accesses: readonly Access[]): string[] => {
  const all = new Set<string>();
  const add = (key: string) => {
    if (all.has(key)) return;
    all.add(key);
    for (const need of accesses.find((one) => one.key === key)?.needs ?? []) add(need);
  };
  for (const key of keys) add(key);
  return [...all];
};

/** Least minutes by trying every order and every set of accesses that may be open in between, swarf kept out of open fuel. */
function byTrying(operations: Operation[], accesses: Access[], openNow: string[]): number {
  const all = Array.from({ length: 2 ** accesses.length }, (_, mask) =>
    accesses.filter((_, at) => mask & (1 << at)),
  );
  const legal = all.filter((set) =>
    set.every(
      (one) =>
        one.needs.every((need) => set.some((other) => other.key === need)) &&
        set.every((other) => !one.excludes.includes(other.key)),
    ),
  );
  const move = (from: readonly string[], to: readonly Access[]) =>
    accesses.reduce((sum, one) => {
      const [was, is] = [from.includes(one.key), to.includes(one)];
      return sum + (was === is ? 0 : is ? one.openMinutes : one.closeMinutes);
    }, 0);
  const known = new Map<string, number>();
  const rest = (done: number, from: readonly string[]): number => {
    const key = `${done} ${from.join()}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    let best = done === 2 ** operations.length - 1 ? move(from, []) : Infinity;
    for (const [at, one] of operations.entries()) {
      if (done & (1 << at)) continue;
      if (one.after.some((other) => operations.some((o, i) => o.key === other && !(done & (1 << i)))))
        continue;
      for (const set of legal) {
        if (!one.accesses.every((need) => set.some((other) => other.key === need))) continue;
        if (one.makesSwarf && set.some((other) => other.fuelOpen)) continue;
        best = Math.min(
          best,
          move(from, set) +
            one.minutes +
            rest(
              done | (1 << at),
              set.map((other) => other.key),
            ),
        );
      }
    }
    known.set(key, best);
    return best;
  };
  return rest(0, openNow);
}

const minutes = fc.integer({ min: 0, max: 9 });
/** Up to five accesses, some of which rest on others, exclude others or open the fuel system; up to six operations, some making swarf. */
const work = fc
  .record({
    accesses: fc.array(
      fc.record({
        open: minutes,
        close: minutes,
        needs: fc.option(fc.nat(9)),
        excludes: fc.option(fc.nat(9)),
        fuelOpen: fc.boolean(),
      }),
      { minLength: 1, maxLength: 5 },
    ),
    operations: fc.array(
      fc.record({
        use: fc.nat(9),
        also: fc.option(fc.nat(9)),
        after: fc.option(fc.nat(9)),
        swarf: fc.boolean(),
      }),
      { maxLength: 6 },
    ),
    open: fc.nat(9),
  })
  .map((raw) => {
    const bare = raw.accesses.map((one, at) =>
      access(`a${at}`, one.open, one.close, {
        needs: one.needs !== null && at > 0 ? [`a${one.needs % at}`] : [],
        ...(one.fuelOpen ? { fuelOpen: true } : {}),
      }),
    );
    const accesses = bare.map((one, at): Access => {
      const other = raw.accesses[at]?.excludes;
      const key = other === null || other === undefined ? one.key : `a${other % bare.length}`;
      const related = closure([one.key], bare).includes(key) || closure([key], bare).includes(one.key);
      const shared = closure([one.key], bare).some((part) => closure([key], bare).includes(part));
      return related || shared ? one : { ...one, excludes: [key] };
    });
    const both = accesses.map((one) => ({
      ...one,
      excludes: accesses
        .filter((other) => one.excludes.includes(other.key) || other.excludes.includes(one.key))
        .map((other) => other.key),
    }));
    const together = (keys: readonly string[]) => {
      const open = closure(keys, both);
      return both.every(
        (one) => !open.includes(one.key) || one.excludes.every((other) => !open.includes(other)),
      );
    };
    const operations = raw.operations.map((one, at) => {
      const keys = [one.use, ...(one.also === null ? [] : [one.also])].map((n) => `a${n % both.length}`);
      const used = together(keys) ? [...new Set(keys)] : keys.slice(0, 1);
      const fuel = closure(used, both).some((key) => both.find((other) => other.key === key)?.fuelOpen);
      return operation(`o${at}`, used, {
        after: one.after !== null && at > 0 ? [`o${one.after % at}`] : [],
        ...(one.swarf && !fuel ? { makesSwarf: true } : {}),
      });
    });
    const usable = operations.filter((one) => together(one.accesses));
    const some = [`a${raw.open % both.length}`];
    return { accesses: both, operations: usable, openNow: together(some) ? closure(some, both) : [] };
  });

describe("a plan with work that makes swarf", () => {
  it("never does it with the fuel system open, and is still least, against trying everything", () => {
    fc.assert(
      fc.property(work, fc.boolean(), ({ accesses, operations, openNow }, halfway) => {
        const from = halfway ? openNow : [];
        const plan = replan(operations, accesses, from);
        for (const step of plan.steps) {
          const own = operations.find((one) => step.kind === "operation" && one.key === step.key);
          if (!own?.makesSwarf) continue;
          for (const key of step.openAccesses)
            expect(accesses.find((one) => one.key === key)?.fuelOpen ?? false).toBe(false);
        }
        expect(plan.minutes).toBe(byTrying(operations, accesses, from));
        expect(plan.exact).toBe(true);
      }),
      { numRuns: 400 },
    );
  });

  const box = access("box", 4, 4);
  const bowl = access("bowl", 6, 6, { fuelOpen: true });
  const cut = operation("cut", ["box"], { makesSwarf: true });
  const jet = operation("jet", ["bowl"]);

  it("closes the fuel system for work that has to come between two that open it", () => {
    const float = operation("float", ["bowl"], { after: ["cut"] });
    const first = operation("cut", ["box"], { makesSwarf: true, after: ["jet"] });
    const plan = planWork([jet, first, float], [box, bowl]);
    // By hand: the bowl twice, 24, the box once, 8, three operations of 5.
    expect(plan.minutes).toBe(47);
    expect(plan.steps.map((step) => `${step.kind} ${step.key}`)).toEqual([
      "open bowl",
      "operation jet",
      "close bowl",
      "open box",
      "operation cut",
      "close box",
      "open bowl",
      "operation float",
      "close bowl",
    ]);
  });

  it("goes on from an open fuel system by closing it first", () => {
    const plan = goOn(
      [{ operations: [cut, jet], accesses: [box, bowl] }],
      [{ id: "1", from: 0, operation: cut }],
      [],
      ["bowl"],
    );
    expect(plan.steps[0]).toMatchObject({ kind: "close", key: "bowl" });
  });

  it("is refused where the work can only be reached with the fuel system open, and its package is not published", () => {
    const drill = operation("drill", ["bowl"], { makesSwarf: true });
    expect(() => planWork([drill], [bowl])).toThrow(/makes swarf/);
    const recipe = {
      ...BREATHING,
      accesses: BREATHING.accesses.map((one) => (one.key === "bowl" ? { ...one, fuelOpen: true } : one)),
      operations: BREATHING.operations.map((one) =>
        one.key === "fit-main" ? { ...one, makesSwarf: true } : one,
      ),
    };
    expect(checkRecipe(recipe).map((problem) => problem.message)).toContainEqual(
      expect.stringContaining("makes swarf and needs"),
    );
    expect(checkRecipe({ ...recipe, accesses: BREATHING.accesses })).toEqual(checkRecipe(BREATHING));
  });
});
