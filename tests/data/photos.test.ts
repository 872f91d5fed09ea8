import { readdirSync, rmSync, utimesSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeEach, describe, expect, it } from "vitest";
import { acceptQuote } from "@/lib/data/acceptance/accept";
import { problemsOf } from "@/lib/data/books/invariants";
import { addFinding } from "@/lib/data/jobs/findings";
import { createPart } from "@/lib/data/parts/save";
import { captionPhoto, removePhoto, restorePhoto } from "@/lib/data/photos/change";
import { type FileKeeper, keepPhoto } from "@/lib/data/photos/keep";
import { getPhoto, kept, photosOf, photosOfJob } from "@/lib/data/photos/list";
import { foundFor, photosByLink } from "@/lib/data/photos/ofQuote";
import { sweepPhotos } from "@/lib/data/photos/sweep";
import { sendQuote } from "@/lib/data/quotes/send";
import { createQuote } from "@/lib/data/quotes/write";
import type { ShopHandle } from "@/lib/db/shop";
import { PHOTO, type PhotoNoun, photoFiles } from "@/lib/domain/photos/limits";
import { folderStore, newFileName } from "@/lib/outside/fileStore";
import { preparePicture } from "@/lib/outside/pictures";
import { NewPartSchema } from "@/lib/schemas/parts";
import { makeJob } from "../support/jobs";
import { phonePhoto } from "../support/pictures";
import { ORIGIN, readyToQuote, sentQuote, yes } from "../support/quotes";
import { as, twoShops } from "../support/shops";

const picture = await preparePicture(await phonePhoto());
const DAY = 86_400_000;
let a: ShopHandle;
let b: ShopHandle;
let partId: number;

beforeEach(async () => {
  ({ a, b } = await twoShops());
  for (const shop of [a, b])
    partId = await createPart(
      shop,
      NewPartSchema.parse({ code: "PH-1", name: "Needle", kind: "other", unit: "each" }),
    );
});

const store = (shop: ShopHandle) => folderStore(shop.files);
const keep = (
  shop: ShopHandle,
  noun: PhotoNoun,
  nounId: number,
  more: { key?: string; file?: string } = {},
) => keepPhoto(shop, store(shop), picture, { noun, nounId, file: newFileName(), ...more });
const filesIn = (shop: ShopHandle) =>
  store(shop)
    .list()
    .then((files) => files.map((file) => file.name).sort());
const acts = async (shop: ShopHandle) =>
  (await shop.read.auditEntry.findMany({ where: { noun: "photo" }, orderBy: { id: "asc" } })).map(
    (one) => one.act,
  );

describe("photos", () => {
  it("are kept with both pictures in their own shop's folder, and told in the audit trail", async () => {
    const id = await keep(a, "part", partId);
    const photos = (await photosOf(a, "part", [partId])).get(partId);
    expect(photos).toMatchObject([{ id, width: 200, height: 600, caption: "" }]);
    const { file, hash } = await a.read.photo.findUniqueOrThrow({ where: { id } });
    expect(await filesIn(a)).toEqual([photoFiles(file).small, photoFiles(file).large].sort());
    expect(await kept(a, id)).toEqual({ file, hash });
    expect(await acts(a)).toEqual(["added"]);
    expect(await problemsOf(a, store(a))).toEqual([]);
    // The other shop holds a part of the same id, and has none of it: no row, no file, nothing by that file's name.
    expect((await photosOf(b, "part", [partId])).size).toBe(0);
    expect(await kept(b, id)).toBeNull();
    expect(await getPhoto(b, id)).toBeNull();
    expect(await store(b).get(photoFiles(file).large)).toBeNull();
    expect(await filesIn(b)).toEqual([]);
  });

  it("are kept once where the same request comes again, and its second files go", async () => {
    const first = await keep(a, "part", partId, { key: "a-key-of-the-form" });
    const files = await filesIn(a);
    expect(await keep(a, "part", partId, { key: "a-key-of-the-form" })).toBe(first);
    expect(await filesIn(a)).toEqual(files);
    expect(await a.read.photo.count()).toBe(1);
  });

  it("leave no file behind where the row is refused or a picture cannot be written", async () => {
    await expect(keep(a, "bike", 999)).rejects.toThrow("There is no such bike.");
    expect(await filesIn(a)).toEqual([]);
    const own = store(a);
    const full: FileKeeper = {
      ...own,
      put: async (name, bytes) => {
        if (name.includes("small")) throw new Error("no space");
        return own.put(name, bytes);
      },
    };
    await expect(
      keepPhoto(a, full, picture, { noun: "part", nounId: partId, file: newFileName() }),
    ).rejects.toThrow("no space");
    expect(await filesIn(a)).toEqual([]);
    expect(await a.read.photo.count()).toBe(0);
  });

  it("stop at the most that one thing holds", async () => {
    const row = { noun: "part", nounId: partId, hash: "0", width: 1, height: 1, bytes: 1, at: a.now };
    await a.write((tx) =>
      tx.photo.createMany({
        data: Array.from({ length: PHOTO.mostOfOne }, (_, at) => ({ ...row, file: `made${at}` })),
      }),
    );
    await expect(keep(a, "part", partId)).rejects.toThrow(`${PHOTO.mostOfOne} photos`);
  });

  it("take a caption from whoever saw their last state, and from nobody else", async () => {
    const id = await keep(a, "part", partId);
    await captionPhoto(a, { id, version: 1, caption: "Scored at the second ring" });
    await expect(captionPhoto(a, { id, version: 1, caption: "late" })).rejects.toMatchObject({
      kind: "conflict",
    });
    expect(await getPhoto(a, id)).toMatchObject({ caption: "Scored at the second ring", version: 2 });
    await expect(captionPhoto(b, { id, version: 2, caption: "theirs" })).rejects.toMatchObject({
      kind: "conflict",
    });
  });

  it("are taken off and put back, and erased with their files once that is long ago", async () => {
    const id = await keep(a, "part", partId);
    const other = await keep(a, "part", partId);
    const version = await removePhoto(a, { id, version: 1 });
    expect((await photosOf(a, "part", [partId])).get(partId)).toMatchObject([{ id: other }]);
    expect(await kept(a, id)).toBeNull();
    await restorePhoto(a, { id, version });
    expect((await photosOf(a, "part", [partId])).get(partId)).toHaveLength(2);
    const again = await removePhoto(a, { id, version: version + 1 });
    const soon = as(a, { now: new Date(a.now.getTime() + (PHOTO.keptDays - 1) * DAY) });
    expect(await sweepPhotos(soon, store(a))).toEqual({ photos: 0, files: 0 });
    const late = as(a, { now: new Date(Date.now() + (PHOTO.keptDays + 2) * DAY) });
    expect(await sweepPhotos(late, store(a))).toEqual({ photos: 1, files: 2 });
    await expect(restorePhoto(a, { id, version: again })).rejects.toMatchObject({ kind: "conflict" });
    expect(await filesIn(a)).toHaveLength(2);
    expect(await problemsOf(a, store(a))).toEqual([]);
    expect(await acts(a)).toEqual(["added", "added", "removed", "put back", "removed", "erased"]);
  });

  it("leave young files without a row alone, since their row may be on its way", async () => {
    await keep(a, "part", partId);
    const lost = `${newFileName()}.jpg`;
    await store(a).put(lost, picture.small);
    const now = as(a, { now: new Date() });
    expect(await sweepPhotos(now, store(a))).toEqual({ photos: 0, files: 0 });
    const yesterday = new Date(Date.now() - 2 * DAY);
    for (const name of readdirSync(a.files)) utimesSync(join(a.files, name), yesterday, yesterday);
    expect(await sweepPhotos(now, store(a))).toEqual({ photos: 0, files: 1 });
    expect(await filesIn(a)).toHaveLength(2);
  });

  it("are missed by the owner's check when a picture is gone or altered", async () => {
    const ids = [await keep(a, "part", partId), await keep(a, "part", partId), await keep(a, "part", partId)];
    const [gone, changed, thin] = await Promise.all(
      ids.map((id) => a.read.photo.findUniqueOrThrow({ where: { id }, select: { file: true } })),
    );
    rmSync(join(a.files, photoFiles(gone?.file ?? "").large));
    writeFileSync(join(a.files, photoFiles(changed?.file ?? "").large), picture.small);
    rmSync(join(a.files, photoFiles(thin?.file ?? "").small));
    expect(await problemsOf(a, store(a))).toEqual([
      `Photo ${ids[0]} of part ${partId}: its picture is missing.`,
      `Photo ${ids[1]} of part ${partId}: its picture is not what its hash was made of.`,
      `Photo ${ids[2]} of part ${partId}: its small picture is missing.`,
    ]);
  });

  it("stay the picture that they are: the database refuses another file, hash or subject, and an unknown noun", async () => {
    const id = await keep(a, "part", partId);
    for (const data of [{ file: "other" }, { hash: "other" }, { nounId: 2 }, { noun: "bike" }])
      await expect(a.write((tx) => tx.photo.update({ where: { id }, data }))).rejects.toThrow(
        /constraint|stays the picture/i,
      );
    const row = { nounId: 1, file: "f", hash: "h", width: 1, height: 1, bytes: 1, at: a.now };
    await expect(a.write((tx) => tx.photo.create({ data: { ...row, noun: "customer" } }))).rejects.toThrow(
      /constraint|not one of its words/i,
    );
    expect(await a.read.photo.findMany({ select: { noun: true, nounId: true } })).toEqual([
      { noun: "part", nounId: partId },
    ]);
  });

  it("of a job come by step and by finding", async () => {
    const job = await makeJob(a);
    const stepId = job.steps[0] as number;
    const { findingId } = await addFinding(a, { jobId: job.id, stepId, text: "Needle scored" });
    const [step, finding] = [await keep(a, "step", stepId), await keep(a, "finding", findingId)];
    await keep(a, "part", partId);
    const { steps, findings } = await photosOfJob(a, {
      steps: job.steps.map((id) => ({ id })),
      findings: [{ id: findingId }],
    });
    expect([...steps.keys(), ...findings.keys()]).toEqual([stepId, findingId]);
    expect(steps.get(stepId)).toMatchObject([{ id: step }]);
    expect(findings.get(findingId)).toMatchObject([{ id: finding }]);
    expect((await getPhoto(a, step))?.subject).toMatchObject({ noun: "step", job: { id: job.id } });
    expect((await getPhoto(a, finding))?.subject).toMatchObject({
      name: "Needle scored",
      job: { id: job.id },
    });
  });
});

describe("photos of a finding, for the customer of its variation", () => {
  it("are those taken before it was sent, while it waits for an answer, and of that finding alone", async () => {
    const ready = await readyToQuote(a);
    const { jobId } = await acceptQuote(a, yes(await sentQuote(a, ready)));
    const found = await addFinding(a, { jobId, text: "Guide worn" });
    const other = await addFinding(a, { jobId, text: "Hose split" });
    const seen = await keep(a, "finding", found.findingId);
    const removed = await keep(a, "finding", found.findingId);
    await removePhoto(a, { id: removed, version: 1 });
    await keep(a, "finding", other.findingId);
    const id = await createQuote(a, {
      bikeId: ready.bikeId,
      packageId: ready.packageId,
      variationOfId: jobId,
      findingId: found.findingId,
    });
    expect(await foundFor(a, id)).toMatchObject({ text: "Guide worn", photos: [{ id: seen }] });
    const { version, revisions } = await a.read.quote.findUniqueOrThrow({
      where: { id },
      select: { version: true, revisions: { select: { id: true } } },
    });
    const draft = revisions[0]?.id as number;
    expect(await photosByLink(a, draft)).toEqual([]);
    const { revisionId } = await sendQuote(a, { id, version, origin: ORIGIN });
    const later = as(a, { now: new Date(a.now.getTime() + 60_000) });
    await keep(later, "finding", found.findingId);
    expect((await photosByLink(a, revisionId)).map((photo) => photo.id)).toEqual([seen]);
    expect(await photosByLink(b, revisionId)).toEqual([]);
    const { hash } = await a.read.quoteRevision.findUniqueOrThrow({ where: { id: revisionId } });
    await acceptQuote(a, { ...yes({ id, revisionId, hash: hash ?? "", token: "" }) });
    expect(await photosByLink(a, revisionId)).toEqual([]);
  });
});
