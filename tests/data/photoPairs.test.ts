import { beforeEach, expect, it } from "vitest";
import { removeBike } from "@/lib/data/bikes/remove";
import { keepPhoto } from "@/lib/data/photos/keep";
import { getPhoto } from "@/lib/data/photos/list";
import { beginPair, listPairs, removePair } from "@/lib/data/photos/pairs";
import type { ShopHandle } from "@/lib/db/shop";
import { folderStore, newFileName } from "@/lib/outside/fileStore";
import { preparePicture } from "@/lib/outside/pictures";
import { PairSchema } from "@/lib/schemas/photoPairs";
import { type MadeJob, makeJob } from "../support/jobs";
import { phonePhoto } from "../support/pictures";
import { twoShops } from "../support/shops";

const picture = await preparePicture(await phonePhoto());
let a: ShopHandle;
let b: ShopHandle;
let job: MadeJob;

beforeEach(async () => {
  ({ a, b } = await twoShops());
  job = await makeJob(a);
  await makeJob(b);
});

const pair = (bikeId: number, more: object = {}) =>
  PairSchema.parse({
    bikeId: String(bikeId),
    subject: "plug",
    throttle: "quarter",
    note: "Clip 3 to 4",
    ...more,
  });
const photo = (shop: ShopHandle, noun: "pairBefore" | "pairAfter", nounId: number) =>
  keepPhoto(shop, folderStore(shop.files), picture, { noun, nounId, file: newFileName() });

it("keeps photos before and after a change with their bike, job and opening, in this shop alone", async () => {
  const key = "4f7d8c52-93b8-4a74-9f0e-1f54c0a7a010";
  const input = { ...pair(job.bikeId, { jobId: String(job.id) }), key };
  const id = await beginPair(a, input);
  expect(await beginPair(a, input)).toBe(id);
  const before = await photo(a, "pairBefore", id);
  const after = await photo(a, "pairAfter", id);
  const { rows } = await listPairs(a, { bikeId: job.bikeId });
  expect(rows).toMatchObject([
    {
      id,
      subject: "plug",
      throttle: "quarter",
      note: "Clip 3 to 4",
      job: { id: job.id },
      before: [{ id: before }],
      after: [{ id: after }],
    },
  ]);
  expect((await getPhoto(a, after))?.subject).toMatchObject({ noun: "pairAfter", bikeId: job.bikeId });
  expect((await listPairs(b, {})).rows).toEqual([]);
  await expect(photo(b, "pairBefore", id)).rejects.toMatchObject({ kind: "missing" });
});

it("finds pairs again by model, part and opening", async () => {
  const other = await makeJob(a);
  const { modelCardId } = await a.read.bike.findUniqueOrThrow({ where: { id: job.bikeId } });
  const sister = await makeJob(a);
  await a.write((tx) => tx.bike.update({ where: { id: sister.bikeId }, data: { modelCardId } }));
  const one = await beginPair(a, pair(job.bikeId));
  const two = await beginPair(a, pair(sister.bikeId, { throttle: "full" }));
  await beginPair(a, pair(other.bikeId));
  const ids = async (search: object) => (await listPairs(a, search)).rows.map((row) => row.id);
  expect(await ids({ card: modelCardId })).toEqual([two, one]);
  expect(await ids({ card: modelCardId, throttle: "full" })).toEqual([two]);
  expect(await ids({ card: modelCardId, subject: "header" })).toEqual([]);
  expect((await ids({})).length).toBe(3);
});

it("is refused on another bike's job, and removed only while it holds no photo; its bike then stays", async () => {
  const other = await makeJob(a);
  await expect(beginPair(a, pair(job.bikeId, { jobId: String(other.id) }))).rejects.toMatchObject({
    message: expect.stringContaining("another bike"),
  });
  const empty = await beginPair(a, pair(job.bikeId));
  await removePair(a, { pairId: empty, version: 1 });
  await expect(removePair(a, { pairId: empty, version: 1 })).rejects.toMatchObject({ kind: "conflict" });
  const full = await beginPair(a, pair(job.bikeId));
  await photo(a, "pairBefore", full);
  await expect(removePair(a, { pairId: full, version: 1 })).rejects.toMatchObject({
    message: "This pair holds a photo.",
  });
  const { version } = await a.read.bike.findUniqueOrThrow({ where: { id: job.bikeId } });
  await expect(removeBike(a, { id: job.bikeId, version })).rejects.toMatchObject({
    message: expect.stringContaining("1 photo pair"),
  });
});
