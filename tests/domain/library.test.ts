import { createHash } from "node:crypto";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { COMMON_PRACTICE, type LibraryEntry } from "@/lib/domain/library/entry";
import { withLinePicks } from "@/lib/domain/library/lines";
import { mergeItem } from "@/lib/domain/library/merge";
import { offersOf, withOffers } from "@/lib/domain/library/offer";
import { type Kept, operationsPicked, withOption, withPicked } from "@/lib/domain/library/pick";
import { FAMILIES } from "@/lib/domain/library/places";
import { together } from "@/lib/domain/library/recheck";
import { STARTING_LIBRARY } from "@/lib/domain/library/starting/starting";
import { checkRecipe } from "@/lib/domain/packages/check";
import { renamed } from "@/lib/domain/packages/named";
import type { Recipe } from "@/lib/domain/packages/recipe";
import { without } from "@/lib/domain/packages/without";
import { access } from "@/lib/domain/packages/writing";
import { planWork } from "@/lib/domain/plan/planWork";
import { procedure } from "@/lib/domain/procedures/procedures";
import { LibraryEntrySchema } from "@/lib/schemas/library";
import { RecipeSchema } from "@/lib/schemas/recipe";

const EMPTY: Recipe = {
  format: "throttlewright-recipe",
  version: 2,
  groups: [],
  options: [],
  operations: [],
  accesses: [],
  rules: [],
};
const printOf = (entry: LibraryEntry) =>
  createHash("sha256").update(JSON.stringify(entry)).digest("hex").slice(0, 16);
const libraryOf = (entries: readonly LibraryEntry[]) =>
  new Map(entries.map((entry): [string, Kept] => [entry.key, { entry, print: printOf(entry) }]));
const START = libraryOf(STARTING_LIBRARY);
const entry = (key: string) => {
  const found = START.get(key)?.entry;
  if (!found) throw new Error(`The starting library has no ${key}.`);
  return found;
};
const changed = <T extends LibraryEntry>(key: string, change: Partial<T>) =>
  libraryOf(STARTING_LIBRARY.map((one) => (one.key === key ? ({ ...one, ...change } as LibraryEntry) : one)));
const textOf = (key: string, print: string) =>
  START.get(key)?.print === print ? START.get(key)?.entry : undefined;
const cautionsOf = (key: string) => {
  const found = entry(key);
  return "cautions" in found ? found.cautions : [];
};
const REBUILD = [
  "strip-rack",
  "look-diaphragms-rack",
  "clean-rack",
  "renew-valves-rack",
  "set-floats-twin",
  "bench-balance",
  "vacuum-balance",
  "set-idle",
  "leak-look",
];

describe("the starting library", () => {
  it("is of right shape, each key once, and names only what is in it", () => {
    const keys = STARTING_LIBRARY.map(({ key }) => key);
    expect(new Set(keys).size).toBe(keys.length);
    for (const one of STARTING_LIBRARY) expect(LibraryEntrySchema.parse(one)).toEqual(one);
    for (const one of STARTING_LIBRARY) {
      const named =
        one.kind === "access"
          ? [...one.needs, ...one.excludes]
          : one.kind === "operation"
            ? [...one.accesses, ...one.after]
            : [];
      expect(
        named.filter((key) => !keys.includes(key)),
        one.key,
      ).toEqual([]);
    }
  });

  // Common practice, no source: nothing of it was published, so nothing of it may look as if it were.
  it("says of every figure that it is common practice, and states no torque", () => {
    expect(STARTING_LIBRARY.every(({ source }) => source === COMMON_PRACTICE)).toBe(true);
    const torques = STARTING_LIBRARY.flatMap((one) => ("torques" in one ? one.torques : []));
    expect(torques.length).toBeGreaterThan(5);
    expect(torques.filter(({ newtonMetres }) => newtonMetres !== undefined)).toEqual([]);
  });

  it("asks for the driver of JIS B 4633 wherever small cross heads are met, and has each family's own way in", () => {
    const heads = STARTING_LIBRARY.filter(
      (one) => one.kind === "access" && one.cautions.some((line) => line.includes("JIS")),
    );
    expect(heads.length).toBeGreaterThan(3);
    for (const one of heads)
      expect("tools" in one && one.tools.some((tool) => tool.includes("JIS B 4633")), one.key).toBe(true);
    for (const { key } of FAMILIES)
      for (const kind of ["access", "operation"] as const)
        expect(
          STARTING_LIBRARY.some((one) => one.kind === kind && one.families.includes(key)),
          `${key} ${kind}`,
        ).toBe(true);
  });

  it("names in its checks only measuring procedures that there are", () => {
    const named = STARTING_LIBRARY.flatMap((one) =>
      one.kind === "check" && one.procedure ? [one.procedure] : [],
    );
    expect(named).toHaveLength(3);
    expect(named.filter((id) => !procedure(id))).toEqual([]);
  });

  it("makes, whole and for each family, packages that every check passes", () => {
    for (const family of [undefined, ...FAMILIES.map(({ key }) => key)]) {
      const work = STARTING_LIBRARY.filter(
        (one) =>
          one.kind === "operation" &&
          (family === undefined || one.families.length === 0 || one.families.includes(family)),
      ).map(({ key }) => key);
      const picked = withPicked(EMPTY, START, work, "workshop");
      const recipe = withOption(picked, "All of it", operationsPicked(picked, work));
      expect(RecipeSchema.safeParse(recipe).success).toBe(true);
      expect(
        checkRecipe(recipe).map(({ message }) => message),
        family,
      ).toEqual([]);
    }
  });
});

describe("a rebuild of a twin on a rack, picked from the library", () => {
  const recipe = withPicked(EMPTY, START, REBUILD, "workshop");
  const plan = planWork(recipe.operations, recipe.accesses);

  it("opens the tank and the rack once, balances with everything closed, and sets the idle last", () => {
    const names = plan.steps.map(({ kind, key }) => `${kind} ${key}`);
    for (const key of ["seat-off", "tank-off", "airbox-back", "rack-out"])
      expect(
        names.filter((name) => name === `open ${key}`),
        key,
      ).toHaveLength(1);
    const at = (name: string) => names.indexOf(name);
    expect(at("close rack-out")).toBeGreaterThan(at("operation bench-balance"));
    expect(at("operation vacuum-balance")).toBeGreaterThan(at("close tank-off"));
    expect(at("operation set-idle")).toBeGreaterThan(at("operation vacuum-balance"));
    expect(at("operation set-floats-twin")).toBeGreaterThan(at("operation clean-rack"));
    const balance = plan.steps.find(({ key }) => key === "vacuum-balance");
    expect(balance?.openAccesses).toEqual(["engine-running"]);
  });

  it("takes apart before it sets, whichever of its work is picked", () => {
    const some = withPicked(EMPTY, START, ["bench-balance", "set-floats-twin", "strip-rack"], "workshop");
    const order = planWork(some.operations, some.accesses).steps.flatMap(({ kind, key }) =>
      kind === "operation" ? [key] : [],
    );
    expect(order).toEqual(["strip-rack", "set-floats-twin", "bench-balance"]);
  });

  it("takes the minutes of its work and of each opening once", () => {
    const work = recipe.operations.reduce((sum, one) => sum + one.minutes, 0);
    const open = recipe.accesses.reduce((sum, one) => sum + one.openMinutes + one.closeMinutes, 0);
    expect(plan.minutes).toBe(work + open);
  });

  it("adds nothing twice, and meets what the package has of the same name", () => {
    expect(withPicked(recipe, START, REBUILD, "workshop")).toEqual(recipe);
    const own = { ...EMPTY, accesses: [access("mine", "tank  OFF", 5, 6)] };
    const beside = withPicked(own, START, ["rack-out"], "workshop");
    expect(beside.accesses.filter(({ name }) => /tank/i.test(name))).toHaveLength(1);
    expect(beside.accesses.find(({ key }) => key === "rack-out")?.needs).toContain("mine");
  });

  it("keeps apart and in order what is picked one after the other, as if picked at once", () => {
    const running = withPicked(EMPTY, START, ["set-idle"], "workshop");
    const then = withPicked(running, START, ["bench-balance"], "workshop");
    const idle = then.operations.find(({ key }) => key === "set-idle");
    expect(idle?.after).toContain("bench-balance");
    expect(then.accesses.find(({ key }) => key === "engine-running")?.excludes).toContain("rack-out");
  });

  it("says on the card each torque that has a figure, and where threadlocker goes", () => {
    const library = changed("rack-out", {
      torques: [{ where: "Manifold clamps", newtonMetres: 2.5, source: "own gauge, three racks" }],
    });
    const [rack] = withPicked(EMPTY, library, ["rack-out"], "workshop").accesses.filter(
      ({ key }) => key === "rack-out",
    );
    expect(rack?.closingChecks).toContain("Manifold clamps at 2.5 N·m (own gauge, three racks)");
    expect(rack?.closingChecks).toContain("Threadlocker: screws of the throttle link");
  });
});

describe("a change of the library", () => {
  const recipe = withPicked(EMPTY, START, ["set-floats-twin"], "workshop");

  it("is offered with its difference, and changes nothing by itself", () => {
    const library = changed("tank-off", { openMinutes: 11, cautions: ["Fuel. Two pairs of hands."] });
    const before = structuredClone(recipe);
    const [offer] = offersOf(recipe, library, textOf);
    expect(recipe).toEqual(before);
    expect(offer?.item).toBe("Tank off");
    expect(offer?.differences.map(({ what, was, now }) => [what, was, now])).toEqual([
      ["Minutes to open", "8", "11"],
      ["Cautions", cautionsOf("tank-off").join("; "), "Fuel. Two pairs of hands."],
    ]);
    const taken = withOffers(recipe, library, textOf, ["tank-off"]);
    const tank = taken.accesses.find(({ key }) => key === "tank-off");
    expect([tank?.openMinutes, tank?.cautions]).toEqual([11, ["Fuel. Two pairs of hands."]]);
    expect(offersOf(taken, library, textOf)).toEqual([]);
  });

  it("leaves what the package changed by hand, and says so", () => {
    const own = {
      ...recipe,
      accesses: recipe.accesses.map((one) => (one.key === "tank-off" ? { ...one, openMinutes: 20 } : one)),
    };
    const library = changed("tank-off", { openMinutes: 11, closeMinutes: 12 });
    const [offer] = offersOf(own, library, textOf);
    expect(offer?.differences.map(({ what, taken }) => [what, taken])).toEqual([
      ["Minutes to open", false],
      ["Minutes to close", true],
    ]);
    const tank = withOffers(own, library, textOf, ["tank-off"]).accesses.find(
      ({ key }) => key === "tank-off",
    );
    expect([tank?.openMinutes, tank?.closeMinutes]).toEqual([20, 12]);
  });

  it("counts the package's own text as what was picked where the earlier text is unknown here", () => {
    const library = changed("tank-off", { openMinutes: 11 });
    const [offer] = offersOf(recipe, library, () => undefined);
    expect(offer?.differences).toMatchObject([{ what: "Minutes to open", was: "8", now: "11", taken: true }]);
  });

  it("reaches a caution or a check picked as a line, and only while the line still reads so", () => {
    const bare = {
      ...EMPTY,
      accesses: [access("bowl", "Bowl off", 3, 4, { cautions: [entry("float-pin").name] })],
    };
    const known = [
      { entry: "float-pin", print: START.get("float-pin")?.print ?? "", name: entry("float-pin").name },
    ];
    const words = (key: string, print: string) => textOf(key, print)?.name;
    const own = withLinePicks(bare, "accesses", "bowl", known, words);
    expect(own.picks).toMatchObject([{ entry: "float-pin", line: "cautions", key: "bowl" }]);
    const library = changed("float-pin", { name: "Float posts break: push from the thin side." });
    expect(offersOf(own, library, textOf)).toMatchObject([
      {
        item: "Bowl off",
        differences: [{ what: "Caution", now: "Float posts break: push from the thin side." }],
      },
    ]);
    const taken = withOffers(own, library, textOf, ["float-pin"]);
    expect(taken.accesses[0]?.cautions).toEqual(["Float posts break: push from the thin side."]);
    const rewritten = {
      ...own,
      accesses: [access("bowl", "Bowl off", 3, 4, { cautions: ["Mind the posts."] })],
    };
    expect(offersOf(rewritten, library, textOf)).toEqual([]);
    expect(withLinePicks(rewritten, "accesses", "bowl", known, words).picks).toEqual([]);
  });

  it("follows an item whose key is changed, and leaves with an item that is taken out", () => {
    const library = changed("tank-off", { openMinutes: 11 });
    const keyed = renamed(recipe, "accesses", "tank-off", "tank");
    expect(
      withOffers(keyed, library, textOf, ["tank-off"]).accesses.find(({ key }) => key === "tank"),
    ).toMatchObject({
      openMinutes: 11,
    });
    const gone = without(
      { ...recipe, accesses: recipe.accesses.filter(({ key }) => key !== "tank-off") },
      "accesses",
      "tank-off",
    );
    expect(offersOf(gone, library, textOf)).toEqual([]);
    expect(gone.picks?.some((pick) => pick.key === "tank-off")).toBe(false);
  });

  it("of what is needed open brings that in, and is said by its name", () => {
    const floats = withPicked(EMPTY, START, ["set-floats-twin"], "workshop");
    expect(floats.accesses.some(({ key }) => key === "header-off")).toBe(false);
    const now = entry("set-floats-twin");
    if (now.kind !== "operation") throw new Error("It is work.");
    const library = changed("set-floats-twin", { accesses: [...now.accesses, "header-off"] });
    const [offer, ...others] = offersOf(floats, library, textOf);
    expect(others).toEqual([]);
    expect(offer?.differences).toEqual([
      { what: "Needs open", was: "", now: entry("header-off").name, taken: true },
    ]);
    const taken = withOffers(floats, library, textOf, ["set-floats-twin"]);
    const work = taken.operations.find(({ key }) => key === "set-floats-twin");
    expect(work?.accesses).toEqual([...now.accesses, "header-off"]);
    expect(taken.accesses.some(({ key }) => key === "header-off")).toBe(true);
    expect(offersOf(taken, library, textOf)).toEqual([]);
    expect(RecipeSchema.safeParse(taken).success).toBe(true);
  });

  it("of the order of work and of what is never open together is taken by the package's own keys, and its own links stay", () => {
    const both = withPicked(EMPTY, START, ["set-floats-twin", "set-idle"], "workshop");
    const keyed = renamed(both, "operations", "set-floats-twin", "floats");
    const own = {
      ...keyed,
      operations: keyed.operations.map((one) =>
        one.key === "floats" ? { ...one, after: [...one.after, "mine"] } : one,
      ),
    };
    const floats = entry("set-floats-twin");
    if (floats.kind !== "operation") throw new Error("It is work.");
    // Work that the package has not got is no part of its order.
    const library = changed("set-floats-twin", { after: ["set-idle", "strip-rack"] });
    const [offer] = offersOf(own, library, textOf);
    expect(offer?.differences.map(({ what, was, now: is }) => [what, was, is])).toEqual([
      ["Comes after", "", entry("set-idle").name],
    ]);
    const taken = withOffers(own, library, textOf, ["set-floats-twin"]);
    const after = taken.operations.find(({ key }) => key === "floats")?.after ?? [];
    expect(after).toContain("mine");
    expect(after).toContain("set-idle");
    // Where the earlier text is unknown, nothing of the package's own is taken for something that the library took out.
    const unknown = withOffers(own, changed("set-floats-twin", { after: [] }), () => undefined, [
      "set-floats-twin",
    ]);
    expect(unknown.operations.find(({ key }) => key === "floats")?.after).toContain("mine");
  });

  // Identities of a three-way merge: nothing changed above gives nothing; nothing changed below gives what is above.
  it("merges three ways whatever was changed on either side", () => {
    const lines = fc.uniqueArray(fc.constantFrom("a", "b", "c", "d", "e"), { maxLength: 5 });
    const item = fc
      .record({ openMinutes: fc.nat(9), closeMinutes: fc.nat(9), cautions: lines, closingChecks: lines })
      .map((more) => access("one", "One", 1, 1, more));
    fc.assert(
      fc.property(item, item, item, (own, base, now) => {
        expect(mergeItem(own, base, base)).toEqual({ item: own, differences: [] });
        const up = mergeItem(base, base, now).item;
        expect([up.openMinutes, up.closeMinutes]).toEqual([now.openMinutes, now.closeMinutes]);
        expect(up.cautions.toSorted()).toEqual(now.cautions.toSorted());
        const { item: merged } = mergeItem(own, base, now);
        if (own.openMinutes !== base.openMinutes) expect(merged.openMinutes).toBe(own.openMinutes);
        const byHand = own.cautions.filter((line) => !base.cautions.includes(line));
        expect(merged.cautions).toEqual(expect.arrayContaining(byHand));
      }),
    );
  });
});

describe("what is looked at again after heat cycles", () => {
  it("is one follow-up for each distance and time, each thing once", () => {
    const clamps = { what: "Manifold clamps", km: 300, days: 30 };
    expect(together([clamps, { ...clamps, what: "Header nuts" }, clamps, { ...clamps, km: 1000 }])).toEqual([
      { what: "Manifold clamps; Header nuts", km: 300, days: 30 },
      { what: "Manifold clamps", km: 1000, days: 30 },
    ]);
  });
});
