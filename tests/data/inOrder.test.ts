import type { SqlQueryable } from "@prisma/driver-adapter-utils";
import { describe, expect, it } from "vitest";
import { inOrder } from "@/lib/db/inOrder";

const asked = (sql: string) => ({ sql, args: [], argTypes: [] });

describe("statements that begin together in one transaction", () => {
  it("reach the session one at a time, in the order in which they were asked; one that fails does not hold up the next", async () => {
    const told: string[] = [];
    const answer = async <T>(sql: string, value: T) => {
      told.push(`begins ${sql}`);
      await new Promise((resume) => setTimeout(resume, sql === "first" ? 10 : 1));
      told.push(`ends ${sql}`);
      if (sql === "wrong") throw new Error("It is wrong.");
      return value;
    };
    const session: SqlQueryable = {
      provider: "postgres",
      adapterName: "stand-in",
      queryRaw: ({ sql }) => answer(sql, { columnNames: [], columnTypes: [], rows: [[sql]] }),
      executeRaw: ({ sql }) => answer(sql, 1),
    };
    const ordered = inOrder(session);
    const answers = await Promise.allSettled([
      ordered.queryRaw(asked("first")),
      ordered.executeRaw(asked("wrong")),
      ordered.queryRaw(asked("last")),
    ]);
    expect(told).toEqual(["first", "wrong", "last"].flatMap((sql) => [`begins ${sql}`, `ends ${sql}`]));
    expect(answers).toEqual([
      { status: "fulfilled", value: expect.objectContaining({ rows: [["first"]] }) },
      { status: "rejected", reason: new Error("It is wrong.") },
      { status: "fulfilled", value: expect.objectContaining({ rows: [["last"]] }) },
    ]);
  });
});
