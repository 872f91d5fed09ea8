import { kept } from "@/lib/data/photos/list";
import { photoFiles } from "@/lib/domain/photos/limits";
import type { OpenShop } from "@/lib/gate/open";
import { picture } from "@/lib/gate/picture";
import { photoStore } from "@/lib/outside/photoStore";
import { missing } from "../paper";

/** One of the two pictures of a photo, as an answer. */
export async function sentPicture(
  shop: OpenShop,
  id: number,
  size: "large" | "small",
  request: Request,
): Promise<Response> {
  const photo = await kept(shop, id);
  if (!photo) throw missing();
  const read = () => photoStore(shop).get(photoFiles(photo.file)[size]);
  return picture(read, size === "large" ? photo.hash : `${photo.hash}-small`, request);
}
