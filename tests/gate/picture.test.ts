import { describe, expect, it } from "vitest";
import { Refusal } from "@/lib/domain/refusal";
import { picture } from "@/lib/gate/picture";

const ADDRESS = "http://localhost/api/s/saltpan/photos/1";
const again = (tag: string) => new Request(ADDRESS, { headers: { "If-None-Match": tag } });

describe("a picture that people sent", () => {
  it("is not read again for a browser that has it, and is where it has another or none", async () => {
    let read = 0;
    const bytes = async () => {
      read++;
      return Buffer.from("picture");
    };
    const kept = await picture(bytes, "hash1", again('W/"hash1"'));
    expect([kept.status, kept.headers.get("ETag"), read]).toEqual([304, '"hash1"', 0]);
    for (const request of [again('"hash2"'), new Request(ADDRESS)]) {
      const sent = await picture(bytes, "hash1", request);
      expect([sent.status, await sent.text()]).toEqual([200, "picture"]);
    }
    expect(read).toBe(2);
  });

  it("is not found where there is none, and to be asked for later where its store is down, without telling why", async () => {
    const gone = await picture(async () => null, "hash1", new Request(ADDRESS));
    expect(gone.status).toBe(404);
    const down = async () => Promise.reject(new Refusal("No answer from store.example.", "Look after it."));
    const later = await picture(down, "hash1", new Request(ADDRESS));
    expect([later.status, later.headers.get("Retry-After")]).toEqual([503, "60"]);
    expect(await later.text()).not.toContain("store.example");
    const broken = async () => Promise.reject(new Error("a bug"));
    await expect(picture(broken, "hash1", new Request(ADDRESS))).rejects.toThrow("a bug");
  });
});
