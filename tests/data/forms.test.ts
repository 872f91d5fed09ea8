import { describe, expect, it, vi } from "vitest";
import { z } from "zod";
import { Refusal } from "@/lib/domain/refusal";
import { answer } from "@/lib/gate/action";
import { demandSize, MOST_FIELDS, typedValues } from "@/lib/gate/formData";
import { formObject } from "@/lib/schemas/formObject";
import { EmailField } from "@/lib/schemas/people";

vi.mock("next/headers", () => ({
  headers: async () => new Headers({ origin: "http://localhost:3000", host: "localhost:3000" }),
  cookies: async () => ({ set: () => {} }),
}));

const form = (fields: readonly (readonly [string, string])[]) => {
  const data = new FormData();
  for (const [name, value] of fields) data.append(name, value);
  return data;
};
const many = (count: number, value = "x") =>
  form(Array.from({ length: count }, () => ["part[]", value] as const));

describe("a form's fields", () => {
  it("nest by dots, collect by brackets, and leave out files and keys of ours", () => {
    const data = form([
      ["name", "first"],
      ["name", "last"],
      ["air.low", "1"],
      ["air.high", "2"],
      ["tool[]", "driver"],
      ["tool[]", "socket"],
      ["_key", "k"],
      ["__proto__.admin", "yes"],
    ]);
    data.append("file", new File(["text"], "a.csv"));
    expect(formObject(data)).toEqual({
      name: "last",
      air: { low: "1", high: "2" },
      tool: ["driver", "socket"],
    });
    expect(({} as { admin?: string }).admin).toBeUndefined();
  });

  it("keep a list where the same name also came once without brackets", () => {
    expect(
      formObject(
        form([
          ["a", "word"],
          ["a[]", "one"],
          ["a[]", "two"],
        ]),
      ),
    ).toEqual({ a: ["one", "two"] });
  });

  it("of a name that nests without end are left out", () => {
    expect(formObject(form([[Array(5000).fill("a").join("."), "deep"]]))).toEqual({});
  });

  it("are read in time that grows with their number, not with its square", () => {
    const data = many(150_000);
    expect(formObject(data).part).toHaveLength(150_000);
    expect(typedValues(data)["part[]"]).toHaveLength(MOST_FIELDS);
  });
});

describe("a form's size", () => {
  const refusal = (run: () => void) => {
    try {
      run();
    } catch (cause) {
      if (cause instanceof Refusal) return cause.message;
      throw cause;
    }
    return null;
  };

  it("is at most 2,000 fields", () => {
    expect(refusal(() => demandSize(many(MOST_FIELDS), "typed"))).toBeNull();
    expect(refusal(() => demandSize(many(MOST_FIELDS + 1), "file"))).toContain("more than 2000 fields");
  });

  it("is at most a megabyte where people type, and six where a file's text is expected", () => {
    const megabytes = (count: number) => form([["text", "x".repeat(count * 1_000_000)]]);
    expect(refusal(() => demandSize(megabytes(0.9), "typed"))).toBeNull();
    expect(refusal(() => demandSize(megabytes(1), "typed"))).toContain("longer than 1 MB");
    expect(refusal(() => demandSize(megabytes(5), "file"))).toBeNull();
    expect(refusal(() => demandSize(megabytes(6), "file"))).toContain("longer than 6 MB");
    const photo = new FormData();
    photo.append("photo", new File(["x".repeat(2_000_000)], "a.jpg"));
    expect(refusal(() => demandSize(photo, "typed"))).toContain("longer than 1 MB");
  });
});

describe("what a refusal sends back", () => {
  const UNASKED = { seq: 0 };
  const schema = z.object({ name: z.string().min(3, "Give it a name.") });
  const typed = form([
    ["name", "ab"],
    ["password", "secret of theirs"],
    ["note", "n".repeat(200_000)],
    ["after", "kept"],
  ]);

  it("is nothing of what came before the caller has passed the gate", async () => {
    const state = await answer(UNASKED, typed, { schema }, async () => {
      throw new Refusal("You are signed out.", "Sign in again.");
    });
    expect(state).toEqual({
      seq: 1,
      ok: false,
      message: "You are signed out.",
      remedy: "Sign in again.",
      fields: {},
    });
  });

  it("is what was typed, without passwords and without what is too long to go back and forth", async () => {
    const state = await answer(UNASKED, typed, { schema }, async (input) => ({ toast: input().name }));
    expect(state.ok).toBe(false);
    expect(state.fields).toEqual({ name: "Give it a name." });
    expect(state.values).toEqual({ name: "ab", after: "kept" });
  });

  it("is bounded where a form with too many fields is refused", async () => {
    const state = await answer(
      UNASKED,
      many(MOST_FIELDS + 1, "y".repeat(400)),
      { schema },
      async (input) => ({
        toast: input().name,
      }),
    );
    expect(state.message).toContain("more than 2000 fields");
    expect(JSON.stringify(state).length).toBeLessThan(110_000);
  });
});

describe("an address typed by anybody", () => {
  it("is read one way only, so that one of dots without end is refused at once", () => {
    const taken = (address: string) => EmailField.safeParse(address).success;
    for (const address of [
      "name@example.net",
      "a.b+c@mail.example.net",
      "owner@localhost",
      " Name@Example.NET ",
    ])
      expect(taken(address)).toBe(true);
    for (const address of [
      "name",
      "name@example",
      "@example.net",
      "a@b@example.net",
      "a@.net",
      "a@example.",
      "a b@c.de",
    ])
      expect(taken(address)).toBe(false);
    expect(taken(`a@${".".repeat(5_000_000)} @`)).toBe(false);
    expect(taken(`a@${"b.".repeat(2_500_000)} @`)).toBe(false);
  });
});
