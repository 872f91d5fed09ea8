import { createServer, type RequestListener, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { inspect } from "node:util";
import { afterEach, describe, expect, it } from "vitest";
import type { Refusal } from "@/lib/domain/refusal";
import { loggedError } from "@/lib/log/scrub";
import { newFileName } from "@/lib/outside/fileStore";
import { LIMITS } from "@/lib/outside/s3Client";
import { s3Store } from "@/lib/outside/s3Store";
import { ownBucket } from "../support/bucket";

const bucket = await ownBucket();
const limits = { ...LIMITS, connectMs: 200, requestMs: 200, wholeMs: 700 };
const fresh = () => `${newFileName()}.jpg`;

let server: Server | undefined;
afterEach(async () => {
  server?.closeAllConnections();
  await new Promise((done) => (server ? server.close(done) : done(null)));
  server = undefined;
});

/** A store that does what it is told here. */
async function storeThat(answers: RequestListener): Promise<string> {
  const own = createServer(answers);
  server = own;
  await new Promise<void>((done) => own.listen(0, "127.0.0.1", done));
  return `http://127.0.0.1:${(own.address() as AddressInfo).port}`;
}

const refused = async (act: Promise<unknown>): Promise<Refusal> => {
  const cause = await act.then(
    () => null,
    (failure: unknown) => failure,
  );
  expect(cause).toMatchObject({ name: "Refusal", kind: "busy" });
  return cause as Refusal;
};

describe("the file store in an S3 bucket", () => {
  it("gives back what was put, and null for what is not there or was removed", async () => {
    const files = s3Store(bucket, "shop_a");
    const name = fresh();
    const before = Date.now();
    expect(await files.list()).toEqual([]);
    expect(await files.get(name)).toBeNull();
    await files.put(name, Buffer.from("picture"));
    expect(Buffer.from((await files.get(name)) ?? []).toString()).toBe("picture");
    const [found, more] = await files.list();
    expect(found).toMatchObject({ name, bytes: 7 });
    expect(more).toBeUndefined();
    // S3 tells whole seconds.
    expect(Math.abs((found?.writtenAt.getTime() ?? 0) - before)).toBeLessThan(60_000);
    await files.remove(name);
    await files.remove(name);
    expect(await files.get(name)).toBeNull();
    expect(await files.list()).toEqual([]);
  });

  it("keeps shops apart whose databases' names begin alike, and clears one page by page without the other", async () => {
    const [one, other] = [s3Store(bucket, "shop_b", { ...LIMITS, page: 3 }), s3Store(bucket, "shop_bb")];
    const names = Array.from({ length: 8 }, fresh).sort();
    for (const name of names) await one.put(name, Buffer.from("ours"));
    await other.put(names[0] as string, Buffer.from("theirs"));
    expect((await one.list()).map((file) => file.name).sort()).toEqual(names);
    expect(Buffer.from((await other.get(names[0] as string)) ?? []).toString()).toBe("theirs");
    expect(await other.get(names[1] as string)).toBeNull();
    await one.clear();
    expect(await one.list()).toEqual([]);
    expect((await other.list()).map((file) => file.name)).toEqual([names[0]]);
  });

  it("takes no name that could lead out of a shop's own, of a file or of a database", async () => {
    const files = s3Store(bucket, "shop_a");
    for (const name of ["../shop_b/aaaaaaaa.jpg", "aaaaaaaa/../x.jpg", "AAAAAAAA.jpg", ""]) {
      const wrong = /no name of a kept file/;
      await expect(async () => files.get(name), name).rejects.toThrow(wrong);
      await expect(async () => files.put(name, Buffer.from("x")), name).rejects.toThrow(wrong);
      await expect(async () => files.remove(name), name).rejects.toThrow(wrong);
    }
    for (const database of ["", "shop_a/shop_b", "../shop"])
      expect(() => s3Store(bucket, database)).toThrow("Not a database name.");
  });

  it("says what was not done where the store is down, does not answer or is full, after three tries at most", async () => {
    const down = s3Store({ ...bucket, url: "http://127.0.0.1:1" }, "shop_a", limits);
    const put = await refused(down.put(fresh(), Buffer.from("x")));
    expect(put.message).toBe("The photo store cannot be reached (ECONNREFUSED): the photo was not kept.");
    expect(put.remedy).toContain("PHOTO_STORE_URL");
    for (const act of [() => down.get(fresh()), () => down.remove(fresh()), down.list, down.clear])
      expect((await refused(act())).message).toContain("cannot be reached");
    let asked = 0;
    const busy = await storeThat((_, answer) => {
      asked++;
      answer.writeHead(503).end();
    });
    expect((await refused(s3Store({ ...bucket, url: busy }, "shop_a", limits).get(fresh()))).message).toBe(
      "The photo store answers 503: the photo was not read.",
    );
    expect(asked).toBe(3);
  });

  it("waits no longer than its limits for a store that does not answer, or stops in the middle of a picture", async () => {
    const silent = s3Store({ ...bucket, url: await storeThat(() => {}) }, "shop_a", limits);
    expect((await refused(silent.get(fresh()))).message).toBe(
      "The photo store does not answer in time: the photo was not read.",
    );
    server?.closeAllConnections();
    server?.close();
    const half = await storeThat((_, answer) => {
      answer.writeHead(200, { "Content-Length": "100" });
      answer.write("half");
    });
    expect(
      (await refused(s3Store({ ...bucket, url: half }, "shop_a", limits).get(fresh()))).message,
    ).toContain("in time");
  });

  it("says that it is full or refuses the key or knows no such bucket, and tells no secret", async () => {
    const secretKey = "a-secret/of+another";
    const strange = await refused(s3Store({ ...bucket, secretKey }, "shop_a").put(fresh(), Buffer.from("x")));
    expect(strange.message).toContain("403");
    expect(strange.remedy).toContain("PHOTO_STORE");
    for (const told of [JSON.stringify(loggedError(strange)), inspect(strange, { depth: 9 })])
      expect(told).not.toMatch(/a-secret|TESTKEY|Signature=/);
    const none = await refused(s3Store({ ...bucket, bucket: "no-such-bucket" }, "shop_a").get(fresh()));
    expect(none.message).toContain("NoSuchBucket");
    const full = await storeThat((_, answer) => answer.writeHead(507).end());
    expect(
      (await refused(s3Store({ ...bucket, url: full }, "shop_a", limits).put(fresh(), Buffer.from("x"))))
        .message,
    ).toBe("The photo store is full: the photo was not kept.");
  });
});
