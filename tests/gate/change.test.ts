import { describe, expect, it } from "vitest";
import { screenStore } from "@/app/_ui/screenStore";
import { asSent, changeOf, MOST_OF_CHANGE, markOf, type ScreenView } from "@/lib/gate/change";
import { shown, shownAs } from "@/lib/gate/shownLately";

interface View extends ScreenView {
  readonly text: string;
  readonly rows: readonly { readonly key: string; readonly minor: number }[];
}

const view = (text: string, minor = 100): View => ({
  served: "one",
  text,
  rows: [
    { key: "labour", minor: 5000 },
    { key: "parts", minor },
  ],
});

describe("what an act on a live screen is answered with", () => {
  it("is what turns the view before it into the one after, as a browser makes it", () => {
    const [before, after] = [view("as found"), view("as found", 250)];
    const change = changeOf(before, after);
    const page = screenStore(asSent(before), markOf(before));
    const heard: number[] = [];
    page.subscribe(() => heard.push(1));
    expect(change && page.take(JSON.parse(JSON.stringify(change)))).toBe(true);
    expect(page.view()).toEqual(after);
    expect(page.mark()).toBe(markOf(after));
    expect(heard).toHaveLength(1);
  });

  it("is the page where it would be more than fits: the limit is in bytes", () => {
    const most = view("ø".repeat(MOST_OF_CHANGE / 2 - 100));
    expect(changeOf(view(""), most)).not.toBeNull();
    expect(changeOf(view(""), view("ø".repeat(MOST_OF_CHANGE / 2)))).toBeNull();
  });

  it("is the page where the server alone draws what changed", () => {
    expect(changeOf(view("as found"), { ...view("as found"), served: "two" })).toBeNull();
  });

  it("is not made by a page that has something else before it", () => {
    const [before, after] = [view("as found"), view("as found", 250)];
    const change = changeOf(before, after);
    const other = view("as left");
    const page = screenStore(asSent(other), markOf(other));
    expect(change && page.take(change)).toBe(false);
    expect(page.view()).toEqual(other);
  });
});

describe("screens that were shown lately", () => {
  it("are known again by their mark, in their own shop alone", () => {
    const { mark, view: sent } = shown("saltpan", view("as found"));
    expect(sent).toEqual(asSent(view("as found")));
    expect(shownAs("saltpan", mark)).toEqual(view("as found"));
    expect(shownAs("fjellrev", mark)).toBeNull();
    expect(shownAs("saltpan", markOf(view("as left")))).toBeNull();
  });

  it("go, the oldest first, where there are too many", () => {
    const marks = Array.from({ length: 30 }, (_, at) => shown("saltpan", view("x".repeat(100_000), at)).mark);
    const kept = marks.map((mark) => shownAs("saltpan", mark) !== null);
    expect(kept.at(-1)).toBe(true);
    expect(kept.filter(Boolean).length).toBeLessThan(20);
    expect(kept.lastIndexOf(false)).toBeLessThan(kept.indexOf(true));
    expect(shown("saltpan", view("x".repeat(2_000_001))).mark).toBeTruthy();
    expect(shownAs("saltpan", marks.at(-1) ?? "")).not.toBeNull();
  });
});
