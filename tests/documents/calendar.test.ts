import fc from "fast-check";
import ICAL from "ical.js";
import { describe, expect, it } from "vitest";
import { calendarText } from "@/lib/documents/calendar";

const NOW = new Date("2026-11-25T00:30:00Z");
const entry = {
  uid: "booking-7@saltpan.localhost",
  sequence: 3,
  startsAt: new Date("2026-11-26T21:30:00Z"),
  endsAt: new Date("2026-11-27T02:00:00Z"),
  summary: "Job 612: Tarrant Drover 580, Open-road breathing",
  location: "Bay one",
  description: "S 123 ABC",
};

const read = (text: string) =>
  new ICAL.Component(ICAL.parse(text) as unknown[])
    .getAllSubcomponents("vevent")
    .map((component) => new ICAL.Event(component));

describe("a calendar file, read by ical.js (RFC 5545)", () => {
  it("says the same instants, place and words, in UTC, with a number that grows by change", () => {
    const text = calendarText({ name: "Bookings", entries: [entry], now: NOW });
    const [event] = read(text);
    expect(event?.uid).toBe(entry.uid);
    expect(event?.sequence).toBe(3);
    expect(event?.summary).toBe(entry.summary);
    expect(event?.location).toBe(entry.location);
    expect(event?.startDate.toJSDate()).toEqual(entry.startsAt);
    expect(event?.endDate.toJSDate()).toEqual(entry.endsAt);
    expect(text).toContain("DTSTART:20261126T213000Z");
    expect(text).toContain("DTSTAMP:20261125T003000Z");
  });

  it("tells what was cancelled, so that it is taken out", () => {
    const text = calendarText({ name: "Bookings", entries: [{ ...entry, cancelled: true }], now: NOW });
    expect(read(text)[0]?.component.getFirstPropertyValue("status")).toBe("CANCELLED");
  });

  it("keeps any words whole: commas, semicolons, line breaks, long lines, other alphabets", () => {
    const words = fc
      .string({ unit: "grapheme", minLength: 1, maxLength: 200 })
      .filter((s) => s.trim() !== "");
    fc.assert(
      fc.property(fc.array(words, { minLength: 1, maxLength: 5 }), (all) => {
        // biome-ignore lint/suspicious/noControlCharactersInRegex: RFC 5545 allows no control characters in text
        const plain = all.map((s) => s.replace(/[\u0000-\u001f\u007f]/g, " ").trim() || "x");
        const entries = plain.map((summary, at) => ({ ...entry, uid: `booking-${at}`, summary }));
        expect(read(calendarText({ name: "Bookings", entries, now: NOW })).map((e) => e.summary)).toEqual(
          plain,
        );
      }),
    );
  });

  it("keeps a calendar's name on its line, whatever it holds", () => {
    const nasty = [
      "Saltpan\r\nX-EVIL:1\r\nBEGIN:VEVENT",
      "a\nBEGIN:VALARM\nEND:VALARM",
      "one; two, three \\ four",
      "\\n is no line",
      "tab\tand bell\u0007",
    ];
    for (const name of nasty) {
      const text = calendarText({ name, entries: [entry], now: NOW });
      const calendar = new ICAL.Component(ICAL.parse(text) as unknown[]);
      // ical.js leaves an X- property's escapes in (RFC 5545, 3.3.11): the two written are undone here.
      const shown = String(calendar.getFirstPropertyValue("x-wr-calname")).replace(/\\(.)/g, (_, one) =>
        one === "n" ? "\n" : one,
      );
      expect(shown).toBe(
        // biome-ignore lint/suspicious/noControlCharactersInRegex: RFC 5545 allows no control characters in text
        name.replace(/\r\n/g, "\n").replace(/[\u0000-\u0009\u000b-\u001f]/g, ""),
      );
      expect(calendar.getFirstProperty("x-evil")).toBeNull();
      expect(calendar.getAllSubcomponents()).toHaveLength(1);
      expect(text.split("\r\n").every((line) => !/[\r\n]/.test(line))).toBe(true);
    }
  });

  it("lets no address or name of an entry begin a line of its own", () => {
    const bad = {
      ...entry,
      uid: "a\r\nX-EVIL:1",
      url: "http://localhost/\r\nX-EVIL:1",
      location: "b\r\nX-EVIL:1",
    };
    const calendar = new ICAL.Component(
      ICAL.parse(calendarText({ name: "Bookings", entries: [bad], now: NOW })) as unknown[],
    );
    const [event] = calendar.getAllSubcomponents("vevent");
    expect(event?.getFirstProperty("x-evil")).toBeNull();
  });
});
