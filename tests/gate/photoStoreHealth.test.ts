import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { reconfigure } from "@/lib/configuration/configuration";
import { photoStoreHealth } from "@/lib/gate/photoStoreHealth";
import { photoBucket } from "@/lib/outside/photoStore";
import { reachBucket } from "@/lib/outside/reachBucket";
import type { Bucket } from "@/lib/outside/s3Client";
import { leadingTo, ownBucket } from "../support/bucket";

const bucket = await ownBucket();
const forget = () => {
  delete (globalThis as { throttlewrightPhotoStoreHealth?: unknown }).throttlewrightPhotoStoreHealth;
};
const settings = leadingTo(bucket);
const lead = (to: Bucket | null) =>
  reconfigure(
    to ? leadingTo(to) : Object.fromEntries(Object.keys(settings).map((name) => [name, undefined])),
  );
const answered = (reached: boolean) =>
  vi.waitFor(() => expect(photoStoreHealth()).toEqual({ reached, at: expect.any(String) }), 5_000);

beforeEach(forget);
afterEach(() => {
  vi.useRealTimers();
  lead(null);
  forget();
});

describe("the health of the photos' bucket", () => {
  it("is nothing where photos lie in the data folder", () => {
    lead(null);
    expect(photoBucket()).toBeNull();
    expect(photoStoreHealth()).toBeNull();
  });

  it("is unknown at first and told once the bucket has answered", async () => {
    lead(bucket);
    expect(photoStoreHealth()).toEqual({ reached: null, at: null });
    await answered(true);
  });

  it("tells of a bucket that is not there, of a wrong key and of a store that cannot be reached", async () => {
    const wrong = [{ bucket: "elsewhere" }, { secretKey: "another" }, { url: "http://127.0.0.1:9" }];
    for (const change of wrong) {
      forget();
      lead({ ...bucket, ...change });
      expect(photoStoreHealth()).toEqual({ reached: null, at: null });
      await answered(false);
    }
  });

  it("asks once a minute, however many want to know, and nobody waits for a store that says nothing", async () => {
    let asked = 0;
    const silent = createServer(() => void asked++);
    await new Promise<void>((done) => silent.listen(0, "127.0.0.1", done));
    const place = { ...bucket, url: `http://127.0.0.1:${(silent.address() as AddressInfo).port}` };
    try {
      lead(place);
      for (let n = 0; n < 50; n++) expect(photoStoreHealth()).toEqual({ reached: null, at: null });
      await vi.waitFor(() => expect(asked).toBe(1), 5_000);
      vi.spyOn(performance, "now").mockReturnValue(performance.now() + 59_000);
      photoStoreHealth();
      vi.mocked(performance.now).mockReturnValue(performance.now() + 59_000);
      photoStoreHealth();
      vi.mocked(performance.now).mockRestore();
      await vi.waitFor(() => expect(asked).toBe(2), 5_000);
      await expect(reachBucket(place, 300)).rejects.toMatchObject({
        name: "Refusal",
        message: expect.stringContaining("does not answer in time"),
      });
    } finally {
      silent.closeAllConnections();
      silent.close();
    }
  });
});
