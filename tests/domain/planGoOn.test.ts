import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Access, Operation } from "@/lib/domain/packages/recipe";
import { type CardWork, goOn, openAt, type StepOnCard } from "@/lib/domain/plan/goOn";
import { oneBike, type PackageWork } from "@/lib/domain/plan/oneBike";
import type { WorkPlan } from "@/lib/domain/plan/plan";
import { planWork } from "@/lib/domain/plan/planWork";

const access = (key: string, name: string, more: Partial<Access> = {}): Access => ({
  key,
  name,
  openMinutes: 4,
  closeMinutes: 5,
  needs: [],
  excludes: [],
  closingChecks: [`${name}: hose on`],
  cautions: [],
  tools: [],
  ...more,
});
const operation = (key: string, name: string, accesses: string[], after: string[] = []): Operation => ({
  key,
  name,
  instruction: "",
  minutes: 7,
  grade: "workshop",
  accesses,
  after,
  parts: [],
  holdPoints: [],
  inspects: [],
  cautions: [],
  tools: [],
});

const TANK = access("tank", "Tank off");
const LEFT = access("left", "Carburettor turned left", { needs: ["tank"], excludes: ["right"] });
const RIGHT = access("right", "Carburettor turned right", { needs: ["tank"] });
const BOWL = access("bowl", "Bowl off", { needs: ["left"] });
const JETS: PackageWork = {
  accesses: [TANK, LEFT, RIGHT, BOWL],
  operations: [
    operation("main", "Fit the main jet", ["bowl"]),
    operation("needle", "Reseat the needle", ["right"], ["main"]),
    operation("idle", "Set the idle", [], ["main", "needle"]),
  ],
};
/** The same tank under another key, a plate of its own under a key the first package has, and one more check. */
const HOSES: PackageWork = {
  accesses: [
    access("t", "tank  off", { closingChecks: ["Tank breather free"] }),
    access("l", "Carburettor turned left", { needs: ["t"] }),
    access("tank", "Skid plate off"),
  ],
  operations: [
    operation("vents", "Renew the vent hoses", ["l"]),
    operation("drain", "Renew the drain hose", ["tank"]),
    operation("set", "Set the idle", [], ["vents"]),
  ],
};
const of = (work: PackageWork, from: number, keys: string[]): CardWork[] =>
  keys.map((key) => ({
    id: `${from} ${key}`,
    from,
    operation: work.operations.find((o) => o.key === key) as Operation,
  }));
const said = (plan: WorkPlan) => plan.steps.map((step) => `${step.kind} ${step.key}`);

describe("two packages on one bike", () => {
  it("share what has the same name, and keep apart what only has the same key", () => {
    const bike = oneBike([JETS, HOSES]);
    expect([bike.keyOf(1, "t"), bike.keyOf(1, "l"), bike.keyOf(1, "tank")]).toEqual([
      "tank",
      "left",
      "tank-2",
    ]);
    expect(bike.accesses.find((one) => one.key === "tank")?.closingChecks).toEqual([
      "Tank off: hose on",
      "Tank breather free",
    ]);
    expect(oneBike([JETS]).accesses.map((one) => one.key)).toEqual(
      bike.accesses.map((one) => one.key).slice(0, 4),
    );
  });

  it("a bike with its bowl off goes on: what is open serves the new work too, and is closed once", () => {
    const left = [...of(JETS, 0, ["needle", "idle"]), ...of(HOSES, 1, ["vents"])];
    const plan = goOn([JETS, HOSES], left, ["Fit the main jet"], ["tank", "left", "bowl"]);
    // By hand: bowl closed 5, vents 7, left closed 5, right 4+5, needle 7, idle 7, tank closed 5.
    expect(plan.minutes).toBe(5 + 7 + 5 + 4 + 7 + 5 + 5 + 7);
    expect(said(plan).filter((one) => one.startsWith("open"))).toEqual(["open right"]);
    expect(said(plan).indexOf("operation 1 vents")).toBeLessThan(said(plan).indexOf("close left"));
  });

  it("keeps the order that either package asks for, by the operations' names", () => {
    const left = [...of(JETS, 0, ["idle"]), ...of(HOSES, 1, ["vents"])];
    const steps = said(goOn([JETS, HOSES], left, [], []));
    expect(steps.indexOf("operation 1 vents")).toBeLessThan(steps.indexOf("operation 0 idle"));
  });

  it("says beside new work that something done before has to be looked at again", () => {
    const plan = goOn([JETS, HOSES], of(HOSES, 1, ["vents"]), ["Set the idle"], []);
    expect(plan.steps.find((step) => step.kind === "operation")?.cautions).toEqual([
      "“Set the idle” was done before this: look at it again afterwards.",
    ]);
  });
});

describe("what is open on a bike", () => {
  const step = (kind: StepOnCard["kind"], key: string, state: StepOnCard["state"]): StepOnCard => ({
    kind,
    key,
    state,
  });
  it("follows the steps behind it; one skipped in its turn counts as what it leads to, one ahead of it does not", () => {
    const steps = [
      step("open", "tank", "skipped"),
      step("open", "left", "done"),
      step("operation", "main", "todo"),
      step("close", "left", "skipped"),
      step("open", "right", "skipped"),
    ];
    expect(openAt(steps, JETS.accesses)).toEqual(["tank", "left"]);
  });
  it("never holds what cannot be: something open on a thing that is closed, or both sides at once", () => {
    const steps = [step("open", "tank", "done"), step("open", "left", "done"), step("open", "bowl", "done")];
    expect(openAt([...steps, step("close", "tank", "skipped")], JETS.accesses)).toEqual([]);
    expect(openAt([...steps, step("open", "right", "done")], JETS.accesses)).toEqual(["tank", "right"]);
  });
});

/** Random bikes: accesses on top of earlier ones, some excluding one another; two packages over parts of them, named alike. */
const bikes = fc
  .record({
    accesses: fc.array(
      fc.record({ open: fc.nat(9), close: fc.nat(9), need: fc.option(fc.nat(9)), not: fc.option(fc.nat(9)) }),
      { minLength: 1, maxLength: 6 },
    ),
    first: fc.array(fc.record({ use: fc.nat(9), after: fc.option(fc.nat(9)) }), {
      minLength: 1,
      maxLength: 6,
    }),
    second: fc.array(fc.record({ use: fc.nat(9), after: fc.option(fc.nat(9)) }), {
      minLength: 1,
      maxLength: 5,
    }),
    far: fc.nat(40),
    skip: fc.array(fc.boolean(), { minLength: 40, maxLength: 40 }),
  })
  .map(({ accesses: raw, first, second, far, skip }) => {
    const under = (at: number): number[] => {
      const need = raw[at]?.need;
      return need === null || need === undefined || at === 0 ? [at] : [at, ...under(need % at)];
    };
    const pairs = raw.flatMap(({ not }, at) => {
      if (not === null) return [];
      const other = not % raw.length;
      return under(at).includes(other) || under(other).includes(at) ? [] : [[at, other] as const];
    });
    const apart = (keys: readonly number[]) => pairs.some(([a, b]) => keys.includes(a) && keys.includes(b));
    const able = raw.flatMap((_, at) => (apart(under(at)) ? [] : [at]));
    const named = (prefix: string) =>
      raw.map(({ open, close, need }, at) =>
        access(`${prefix}${at}`, `Access ${at}`, {
          openMinutes: open,
          closeMinutes: close,
          needs: need === null || at === 0 ? [] : [`${prefix}${need % at}`],
          excludes: pairs.filter(([a]) => a === at).map(([, b]) => `${prefix}${b}`),
        }),
      );
    const work = (prefix: string, ops: typeof first): PackageWork => ({
      accesses: named(prefix),
      operations: ops.map(({ use, after }, at) => {
        const on = able[use % Math.max(1, able.length)];
        return operation(
          `o${at}`,
          `${prefix} operation ${at}`,
          on === undefined ? [] : [`${prefix}${on}`],
          after === null || at === 0 ? [] : [`o${after % at}`],
        );
      }),
    });
    return { works: [work("a", first), work("b", second)] as const, far, skip };
  });

describe("going on from any point of a card", () => {
  it("does every operation left once, with its access open, never two that exclude each other, all closed and checked at the end", () => {
    fc.assert(
      fc.property(bikes, ({ works, far, skip }) => {
        const [one, two] = works;
        const card = planWork(one.operations, one.accesses).steps;
        const reached = Math.min(far, card.length);
        // Openings may be passed or skipped as "off already"; both leave the thing open.
        const steps = card.map((step, at): StepOnCard => {
          const state = at >= reached ? "todo" : step.kind === "open" && skip[at] ? "skipped" : "done";
          return { kind: step.kind, key: step.key, state };
        });
        const bike = oneBike(works);
        const openNow = openAt(steps, bike.accesses);
        const truly = new Set<string>();
        for (const { kind, key } of steps.slice(0, reached)) {
          if (kind === "open") truly.add(key);
          if (kind === "close") truly.delete(key);
        }
        expect(new Set(openNow)).toEqual(truly);

        const rest = card.slice(reached).filter((step) => step.kind === "operation");
        const left = [
          ...of(
            one,
            0,
            rest.map((step) => step.key),
          ),
          ...of(
            two,
            1,
            two.operations.map((o) => o.key),
          ),
        ];
        const plan = goOn(works, left, [], openNow);
        const open = new Set(openNow);
        const done: string[] = [];
        for (const step of plan.steps) {
          const own = bike.accesses.find((a) => a.key === step.key);
          if (step.kind === "open") {
            expect(open.has(step.key)).toBe(false);
            for (const need of own?.needs ?? []) expect(open.has(need)).toBe(true);
            for (const other of bike.accesses.filter((a) => open.has(a.key)))
              expect(own?.excludes.includes(other.key) || other.excludes.includes(step.key)).toBe(false);
            open.add(step.key);
          } else if (step.kind === "close") {
            expect(open.delete(step.key)).toBe(true);
            expect(step.checks).toEqual(own?.closingChecks);
            for (const other of bike.accesses.filter((a) => open.has(a.key)))
              expect(other.needs).not.toContain(step.key);
          } else {
            const work = left.find((l) => l.id === step.key) as CardWork;
            for (const key of work.operation.accesses)
              expect(open.has(bike.keyOf(work.from, key))).toBe(true);
            for (const key of work.operation.after)
              if (left.some((l) => l.id === `${work.from} ${key}`))
                expect(done).toContain(`${work.from} ${key}`);
            done.push(step.key);
          }
        }
        expect(open.size).toBe(0);
        expect(done.toSorted()).toEqual(left.map((l) => l.id).toSorted());
        // Never dearer than finishing the card as it was and then opening everything again for the new work.
        const apart = card.slice(reached).reduce((sum, step) => sum + step.minutes, 0);
        expect(plan.minutes).toBeLessThanOrEqual(apart + planWork(two.operations, two.accesses).minutes);
      }),
      { numRuns: 300 },
    );
  });
});
