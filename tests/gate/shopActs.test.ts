import { NextRequest } from "next/server";
import { encode } from "next-auth/jwt";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { POST } from "@/app/api/s/[shop]/acts/route";
import { POST as sendPhoto } from "@/app/api/s/[shop]/photos/route";
import { reconfigure } from "@/lib/configuration/configuration";
import { getCard } from "@/lib/data/jobs/card";
import { passStep } from "@/lib/data/jobs/pass";
import { startTime } from "@/lib/data/jobs/time/run";
import { createShop } from "@/lib/data/people/createShop";
import { beginSession } from "@/lib/data/people/sessions";
import { createPerson } from "@/lib/data/people/signUp";
import { prepareShop } from "@/lib/data/shop/prepare";
import { cardsToKeep } from "@/lib/data/today/cardsToKeep";
import { closeDirectory, directory } from "@/lib/db/directory";
import { migrateAll } from "@/lib/db/migrate";
import type { ShopPlace } from "@/lib/db/servers";
import type { ShopHandle } from "@/lib/db/shop";
import type { Role } from "@/lib/domain/access/permissions";
import { keyOf } from "@/lib/gate/action";
import { handleFor } from "@/lib/gate/handle";
import type { KeptAnswer } from "@/lib/gate/keptAct";
import { formObject } from "@/lib/schemas/formObject";
import { formId } from "@/lib/schemas/ids";
import { PassSchema } from "@/lib/schemas/jobs";
import { type MadeJob, makeJob } from "../support/jobs";
import { as, twoShops } from "../support/shops";

let cookie: string | undefined;
vi.mock("next/headers", () => ({
  headers: async () => new Headers({ "x-client-address": "198.51.100.7" }),
  cookies: async () => ({ get: () => (cookie ? { value: cookie } : undefined), set: () => undefined }),
}));

const NOW = new Date();
const SECRET = "a secret of tests, longer than thirty-two letters";
const ORIGIN = "http://localhost:3000";
const HOUR = 3_600_000;
const MINUTE = 60_000;
let a: ShopHandle;
let b: ShopHandle;
let [owner, tuner, desk, stranger] = ["", "", "", ""];

const person = (name: string) =>
  createPerson({ name, email: `${name}@saltpan.example`, password: "float and needle, seated" }, NOW);

async function open(name: string, ownerId: string): Promise<ShopHandle> {
  const by = { personId: ownerId, name: "Owner", role: "owner" as const, staffId: null };
  let staffId: number | null = null;
  const prepare = async (place: ShopPlace) => {
    ({ staffId } = await prepareShop(handleFor(place, by, NOW), {
      name,
      country: "AU",
    }));
  };
  const made = await createShop({ name, owner: { id: ownerId }, prepare }, NOW);
  return handleFor(made, { ...by, staffId }, NOW);
}

async function joins(personId: string, shop: ShopHandle, role: Role): Promise<void> {
  const { id: shopId } = await directory().read.shop.findUniqueOrThrow({ where: { slug: shop.slug } });
  await directory().write((tx) => tx.membership.create({ data: { personId, shopId, role, createdAt: NOW } }));
}

async function signInAs(personId: string): Promise<void> {
  const place = { agent: "", address: "198.51.100.7", newDevice: false };
  const sid = await beginSession({ id: personId, email: "x@saltpan.example" }, place, NOW, 7);
  cookie = await encode({ token: { sub: personId, sid, version: 1 }, secret: SECRET, maxAge: 3600 });
}

interface Sent {
  readonly act: string;
  readonly key?: string;
  readonly fields: Readonly<Record<string, string>>;
  /** Shop and person of the device; left out by devices of old. */
  readonly who?: string;
  /** How long ago it was made. */
  readonly agoMs?: number;
  /** How far ahead the device's clock is. */
  readonly aheadMs?: number;
  readonly headers?: Readonly<Record<string, string>>;
}

function formOf({ act, key, fields, who, agoMs = 0, aheadMs = 0 }: Sent): FormData {
  const form = new FormData();
  for (const [name, value] of Object.entries(fields)) form.append(name, value);
  const sent = Date.now() + aheadMs;
  form.append("_act", act);
  if (who) form.append("_who", who);
  if (key) form.append("_key", key);
  form.append("_at", String(sent - agoMs));
  form.append("_sent", String(sent));
  return form;
}

async function send(shop: ShopHandle, what: Sent): Promise<{ status: number; answer: KeptAnswer }> {
  const request = new NextRequest(`${ORIGIN}/api/s/${shop.slug}/acts`, {
    method: "POST",
    body: formOf(what),
    headers: { Origin: ORIGIN, ...what.headers },
  });
  const response = await POST(request, { params: Promise.resolve({ shop: shop.slug }) });
  const text = await response.text();
  return { status: response.status, answer: text.startsWith("{") ? JSON.parse(text) : text };
}

const passing = (job: MadeJob, at: number, more: Record<string, string> = {}) => ({
  jobId: String(job.id),
  stepId: String(job.steps[at]),
  version: "1",
  ...more,
});

/** A picture of one pixel. */
const PIXEL = Buffer.from(
  "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==",
  "base64",
);

let keys = 0;
const newKey = () => `device-key-${++keys}`;

beforeAll(async () => {
  reconfigure({ NEXTAUTH_SECRET: SECRET });
  await twoShops(NOW);
  await migrateAll();
  owner = await person("owner");
  stranger = await person("stranger");
  [tuner, desk] = [await person("tuner"), await person("desk")];
  a = await open("Saltpan Carburettor Works", owner);
  b = await open("Fjellrev Motor", stranger);
  await joins(tuner, a, "tuner");
  await joins(desk, a, "desk");
});
afterAll(closeDirectory);

const staffOf = async (personId: string) =>
  (await a.read.staff.findUniqueOrThrow({ where: { personId }, select: { id: true } })).id;

describe("an act that a device kept", () => {
  it("is done once however often it is sent, at the moment it was made, with when it arrived beside it", async () => {
    await signInAs(tuner);
    const job = await makeJob(a);
    const key = newKey();
    const act = { act: "pass", key, fields: passing(job, 0), agoMs: 40 * MINUTE };
    for (const _ of [1, 2, 3]) expect((await send(a, act)).answer).toEqual({ is: "done", told: null });
    const step = await a.read.step.findUniqueOrThrow({ where: { id: job.steps[0] ?? 0 } });
    expect([step.state, step.version, step.doneBy]).toEqual(["done", 2, await staffOf(tuner)]);
    const late = Date.now() - (step.doneAt?.getTime() ?? 0);
    expect(late).toBeGreaterThanOrEqual(40 * MINUTE);
    expect(late).toBeLessThan(42 * MINUTE);
    const arrivals = await a.read.auditEntry.findMany({ where: { act: "sent later" } });
    expect(arrivals).toHaveLength(1);
    expect(Date.now() - (arrivals[0]?.at.getTime() ?? 0)).toBeLessThan(2 * MINUTE);
    expect(arrivals[0]?.detail).toMatchObject({
      act: "pass",
      clock: "right",
      madeAt: step.doneAt?.toISOString(),
    });
    expect(await b.read.auditEntry.count({ where: { act: "sent later" } })).toBe(0);
  });

  it("that a form had sent already, its answer lost, is not done again", async () => {
    await signInAs(tuner);
    const job = await makeJob(a);
    await send(a, { act: "pass", key: newKey(), fields: passing(job, 0) });
    const key = newKey();
    const act = { act: "pass", key, fields: passing(job, 1, { [`readings.${job.reading}`]: "3.15" }) };
    const data = formOf(act);
    const { jobId: _, ...input } = PassSchema.extend({ jobId: formId() }).parse(formObject(data));
    const given = PassSchema.extend({ jobId: formId() }).parse(formObject(data));
    const by = { personId: tuner, name: "tuner", role: "tuner" as const, staffId: await staffOf(tuner) };
    await passStep(as(a, { by }), { ...input, parts: [], jets: [], key: keyOf(data, given) });
    expect((await send(a, act)).answer).toEqual({ is: "done", told: null });
    expect(await a.read.reading.count({ where: { holdPointId: job.reading } })).toBe(1);
  });

  it("with a reading outside its limits keeps the reading and stops the job", async () => {
    await signInAs(tuner);
    const job = await makeJob(a);
    await send(a, { act: "pass", key: newKey(), fields: passing(job, 0) });
    const outside = passing(job, 1, { [`readings.${job.reading}`]: "4" });
    expect((await send(a, { act: "pass", key: newKey(), fields: outside })).answer.is).toBe("done");
    const { stopped } = await a.read.job.findUniqueOrThrow({ where: { id: job.id } });
    expect(stopped).toContain("Seat height 4 mm");
  });

  it("on a step that another passed meanwhile is refused with both versions, and goes as a note", async () => {
    const job = await makeJob(a);
    await passStep(a, { stepId: job.steps[0] ?? 0, version: 1, readings: [], checks: [], signatures: [] });
    await passStep(a, {
      stepId: job.steps[1] ?? 0,
      version: 1,
      readings: [{ holdPointId: job.reading, value: 3.1 }],
      checks: [],
      signatures: [],
    });
    await signInAs(tuner);
    const mine = {
      act: "pass",
      key: newKey(),
      fields: passing(job, 1, { [`readings.${job.reading}`]: "3.25" }),
    };
    const { status, answer } = await send(a, { ...mine, agoMs: HOUR });
    expect(status).toBe(200);
    if (answer.is !== "refused") throw new Error(`It was ${answer.is}.`);
    expect(answer.refused.message).toMatch(/was passed by .* while you had it open/);
    expect(answer.refused.mine).toEqual(["Seat height: 3.25 mm"]);
    expect(answer.refused.theirs).toEqual([
      expect.stringMatching(/“Needle seat height” was passed by .* on \d{1,2} \w{3} \d{4}, \d\d:\d\d/),
      "Seat height: 3.1 mm",
    ]);
    // Nothing of it was stored; the same key may be tried again, and is refused again.
    expect((await send(a, mine)).answer.is).toBe("refused");
    expect(await a.read.reading.count({ where: { holdPointId: job.reading } })).toBe(1);
    const note = { stepId: String(job.steps[1]), text: "Not taken over from a device: Seat height: 3.25 mm" };
    expect((await send(a, { act: "noteStep", key: newKey(), fields: note })).answer.is).toBe("done");
    const card = await getCard(a, job.id);
    expect(card?.steps[1]?.notes.map((one) => [one.text, one.by])).toEqual([[note.text, "tuner"]]);
  });

  it("on a job that is over is refused and says what the job is", async () => {
    await signInAs(tuner);
    const job = await makeJob(a);
    await a.write((tx) => tx.job.update({ where: { id: job.id }, data: { state: "cancelled" } }));
    const { answer } = await send(a, { act: "pass", key: newKey(), fields: passing(job, 0) });
    if (answer.is !== "refused") throw new Error(`It was ${answer.is}.`);
    expect(answer.refused.theirs[0]).toMatch(/^Job \d+ is cancelled\.$/);
  });

  it("of a device whose clock is five hours ahead is written at the right time, and the device is told", async () => {
    await signInAs(tuner);
    const job = await makeJob(a);
    const act = {
      act: "pass",
      key: newKey(),
      fields: passing(job, 0),
      agoMs: 20 * MINUTE,
      aheadMs: 5 * HOUR,
    };
    expect((await send(a, act)).answer).toEqual({
      is: "done",
      told: "This device's clock is 5 hours ahead; the times of what was sent are corrected.",
    });
    const { doneAt } = await a.read.step.findUniqueOrThrow({ where: { id: job.steps[0] ?? 0 } });
    const late = Date.now() - (doneAt?.getTime() ?? 0);
    expect(late).toBeGreaterThanOrEqual(20 * MINUTE);
    expect(late).toBeLessThan(22 * MINUTE);
  });

  it("starts and stops the clock at the device's times, and not where the person's time ran elsewhere since", async () => {
    await signInAs(tuner);
    const job = await makeJob(a);
    const here = { jobId: String(job.id) };
    await send(a, { act: "start", key: newKey(), fields: here, agoMs: 30 * MINUTE });
    await send(a, { act: "stop", key: newKey(), fields: here, agoMs: 10 * MINUTE });
    const [entry] = await a.read.timeEntry.findMany({ where: { jobId: job.id } });
    const took = (entry?.endedAt?.getTime() ?? 0) - (entry?.startedAt.getTime() ?? 0);
    expect(Math.abs(took - 20 * MINUTE)).toBeLessThan(MINUTE);
    // A stop that is sent where nothing runs is told: it ended at another time.
    const again = await send(a, { act: "stop", key: newKey(), fields: here, agoMs: 5 * MINUTE });
    expect(again.answer).toMatchObject({
      is: "refused",
      refused: { message: expect.stringMatching(/not run/) },
    });
    const other = await makeJob(a);
    const by = { personId: tuner, name: "tuner", role: "tuner" as const, staffId: await staffOf(tuner) };
    await startTime(as(a, { by, now: new Date() }), { jobId: other.id });
    const behind = await send(a, { act: "start", key: newKey(), fields: here, agoMs: 4 * MINUTE });
    expect(behind.answer).toMatchObject({
      is: "refused",
      refused: { message: expect.stringMatching(/Your time has been on job \d+ since/) },
    });
    expect(await a.read.timeEntry.count({ where: { jobId: job.id } })).toBe(1);
  });

  it("that is a photo is kept once, as taken when the device says", async () => {
    await signInAs(tuner);
    const job = await makeJob(a);
    const sent = Date.now();
    const query = `noun=step&id=${job.steps[0]}&key=${newKey()}&at=${sent - HOUR}&sent=${sent}`;
    for (const _ of [1, 2]) {
      const request = new NextRequest(`${ORIGIN}/api/s/${a.slug}/photos?${query}`, {
        method: "POST",
        body: PIXEL,
        headers: { Origin: ORIGIN },
      });
      const response = await sendPhoto(request, { params: Promise.resolve({ shop: a.slug }) });
      expect(response.status).toBe(200);
    }
    const photos = await a.read.photo.findMany({ where: { noun: "step", nounId: job.steps[0] ?? 0 } });
    expect(photos).toHaveLength(1);
    const late = Date.now() - (photos[0]?.at.getTime() ?? 0);
    expect(late).toBeGreaterThanOrEqual(HOUR);
    expect(late).toBeLessThan(HOUR + 2 * MINUTE);
  });

  it("of somebody else than who is signed in by now waits for them, photos too", async () => {
    const job = await makeJob(a);
    const { id } = await directory().read.shop.findUniqueOrThrow({ where: { slug: a.slug } });
    const act = { act: "pass", key: newKey(), fields: passing(job, 0), who: `${id}:${tuner}` };
    await signInAs(owner);
    expect(await send(a, act)).toEqual({ status: 401, answer: { is: "signedOut" } });
    const sent = Date.now();
    const query = `noun=step&id=${job.steps[0]}&key=${newKey()}&at=${sent}&sent=${sent}&who=${act.who}`;
    const photo = () =>
      new NextRequest(`${ORIGIN}/api/s/${a.slug}/photos?${query}`, {
        method: "POST",
        body: PIXEL,
        headers: { Origin: ORIGIN },
      });
    const params = { params: Promise.resolve({ shop: a.slug }) };
    expect((await sendPhoto(photo(), params)).status).toBe(401);
    const step = () => a.read.step.findUniqueOrThrow({ where: { id: job.steps[0] ?? 0 } });
    expect(await step()).toMatchObject({ state: "todo" });
    await signInAs(tuner);
    expect((await send(a, act)).answer).toEqual({ is: "done", told: null });
    expect((await sendPhoto(photo(), params)).status).toBe(200);
    expect(await step()).toMatchObject({ state: "done", doneBy: await staffOf(tuner) });
    expect(await b.read.photo.count()).toBe(0);
  });

  it("that ends time past the shift is asked about, and taken with its person's word", async () => {
    await signInAs(tuner);
    const by = { personId: tuner, name: "tuner", role: "tuner" as const, staffId: await staffOf(tuner) };
    await a.write((tx) => tx.staff.update({ where: { personId: tuner }, data: { hours: {} } }));
    await a.write((tx) =>
      tx.timeEntry.updateMany({ where: { staffId: by.staffId }, data: { endedAt: new Date() } }),
    );
    const job = await makeJob(a);
    // Begun outside every shift, it is forgotten after four hours.
    const began = new Date(Date.now() - 30 * HOUR);
    await a.write((tx) =>
      tx.timeEntry.create({ data: { staffId: by.staffId, jobId: job.id, startedAt: began } }),
    );
    const stop = { act: "stop", key: newKey(), fields: { jobId: String(job.id) }, agoMs: MINUTE };
    const asked = await send(a, stop);
    expect(asked.answer).toMatchObject({ is: "refused", refused: { late: true } });
    const worked = { ...stop, fields: { ...stop.fields, worked: "yes" } };
    expect((await send(a, worked)).answer.is).toBe("done");
    expect(await a.read.timeEntry.count({ where: { jobId: job.id, endedAt: null } })).toBe(0);
  });

  it("is not taken from somebody who was removed, signed out, of another shop, or by another page", async () => {
    const job = await makeJob(a);
    const act = { act: "pass", key: newKey(), fields: passing(job, 0) };
    cookie = undefined;
    expect(await send(a, act)).toEqual({ status: 401, answer: { is: "signedOut" } });
    await signInAs(stranger);
    expect(await send(a, act)).toEqual({ status: 404, answer: { is: "removed" } });
    // The same key and the same numbers in their own shop are about nothing of the other's.
    expect((await send(b, act)).answer.is).toBe("refused");
    const gone = await person("gone");
    await joins(gone, a, "tuner");
    await signInAs(gone);
    await directory().write((tx) => tx.membership.deleteMany({ where: { personId: gone } }));
    expect(await send(a, act)).toEqual({ status: 404, answer: { is: "removed" } });
    await signInAs(tuner);
    expect((await send(a, { ...act, headers: { Origin: "https://elsewhere.example" } })).status).toBe(403);
    expect((await a.read.step.findUniqueOrThrow({ where: { id: job.steps[0] ?? 0 } })).state).toBe("todo");
  });

  it("is refused without a key, unknown, by a role that may not, too old, or with what no form would send", async () => {
    await signInAs(tuner);
    const job = await makeJob(a);
    const fields = passing(job, 0);
    const said = async (what: Sent) => {
      const { answer } = await send(a, what);
      return answer.is === "refused" ? answer.refused.message : answer.is;
    };
    expect(await said({ act: "pass", fields })).toMatch(/without its key/);
    expect(await said({ act: "toString", key: newKey(), fields })).toMatch(/does not know/);
    expect(await said({ act: "pass", key: newKey(), fields, agoMs: 9 * 24 * HOUR })).toMatch(
      /more than a week/,
    );
    expect(await said({ act: "noteStep", key: newKey(), fields: { stepId: "1", text: "x" } })).toMatch(
      /Write a few words/,
    );
    await signInAs(desk);
    expect(await said({ act: "pass", key: newKey(), fields })).toMatch(/Your role \(desk\) may not/);
    expect((await a.read.step.findUniqueOrThrow({ where: { id: job.steps[0] ?? 0 } })).state).toBe("todo");
  });
});

describe("the cards that a device keeps", () => {
  it("are of the person's day: what their time runs on and what they worked on today, bikes that are here", async () => {
    const staffId = await staffOf(tuner);
    const by = { personId: tuner, name: "tuner", role: "tuner" as const, staffId };
    const morning = new Date("2026-12-09T00:00:00Z");
    const shop = as(a, { by, now: morning });
    await a.write((tx) => tx.timeEntry.deleteMany({ where: { staffId } }));
    const [first, second, away] = [await makeJob(a), await makeJob(a), await makeJob(a, false)];
    await startTime(shop, { jobId: first.id });
    await startTime(as(shop, { now: new Date("2026-12-09T01:00:00Z") }), { jobId: second.id });
    const kept = await cardsToKeep(as(shop, { now: new Date("2026-12-09T02:00:00Z") }));
    expect(kept.map((one) => one.id)).toEqual([second.id, first.id]);
    expect(kept.map((one) => one.id)).not.toContain(away.id);
    const tomorrow = await cardsToKeep(as(shop, { now: new Date("2026-12-10T02:00:00Z") }));
    expect(tomorrow.map((one) => one.id)).toEqual([second.id]);
    expect(await cardsToKeep(b)).toEqual([]);
  });
});
