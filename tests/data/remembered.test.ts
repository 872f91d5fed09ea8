import { describe, expect, it } from "vitest";
import { Remembered } from "@/lib/db/remembered";

describe("keys that are remembered", () => {
  it("are as many as were said, those used last, however many come", () => {
    const keys = new Remembered(3);
    for (let n = 0; n < 1000; n++) keys.add(`shop ${n}`);
    expect(keys.size).toBe(3);
    expect(["shop 996", "shop 997"].map((key) => keys.has(key))).toEqual([false, true]);
    keys.add("shop 1000");
    expect(["shop 997", "shop 998", "shop 999"].map((key) => keys.has(key))).toEqual([true, false, true]);
  });
});
