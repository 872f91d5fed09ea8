import { keepPhoto } from "@/lib/data/photos/keep";
import { PHOTO } from "@/lib/domain/photos/limits";
import { Refusal } from "@/lib/domain/refusal";
import { asMade, demandTime, isOf } from "@/lib/gate/keptAct";
import { shopUpload } from "@/lib/gate/route";
import { newFileName } from "@/lib/outside/fileStore";
import { photoStore } from "@/lib/outside/photoStore";
import { preparePicture } from "@/lib/outside/pictures";
import { PhotoOfSchema, PhotoWaitedSchema } from "@/lib/schemas/photos";
import { inWorker } from "@/lib/workers/pool";

/** Takes a photo of a part, bike, step, finding or one side of a pair, named in the address; answers the photo's id. */
export const POST = shopUpload("photo.write", PHOTO.mostBytes, async (shop, request, body) => {
  const of = PhotoOfSchema.safeParse(Object.fromEntries(request.nextUrl.searchParams));
  if (!of.success)
    throw new Refusal("It is not said what this photo shows.", "Send it from the page it belongs to.");
  const { noun, id, key } = of.data;
  const waited = PhotoWaitedSchema.safeParse(Object.fromEntries(request.nextUrl.searchParams));
  if (!isOf(shop, waited.data?.who))
    throw new Refusal(
      "This photo is somebody else's.",
      "They send it once they are signed in.",
      {},
      "signedOut",
    );
  const told = waited.success
    ? new Map(Object.entries(waited.data).map(([name, text]) => [`_${name}`, text]))
    : null;
  const taken = told && key ? asMade(shop, demandTime(told, shop.now), { act: "photo", key }) : shop;
  const picture = await preparePicture(body, (heic) => inWorker(shop, "jpegFromHeic", heic));
  const photo = await keepPhoto(taken, photoStore(shop), picture, {
    noun,
    nounId: id,
    file: newFileName(),
    key,
  });
  return String(photo);
});
