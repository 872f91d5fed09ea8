import { photosByLink } from "@/lib/data/photos/ofQuote";
import { photoFiles } from "@/lib/domain/photos/limits";
import { openLink } from "@/lib/gate/customer";
import { noPicture, picture } from "@/lib/gate/picture";
import { shutAnswer } from "@/lib/gate/shut";
import { photoStore } from "@/lib/outside/photoStore";

/** A picture of the finding that a customer's link is about; any other photo, and any other link, has none. */
export async function shownPicture(
  request: Request,
  { shop: slug, token, id }: { shop: string; token: string; id: string },
  size: "large" | "small",
): Promise<Response> {
  const link = await openLink(slug, token);
  if ("closed" in link && link.closed === "shut") return shutAnswer();
  if ("closed" in link || link.purpose !== "quote" || link.revisionId === null) return noPicture();
  const photo = (await photosByLink(link.shop, link.revisionId)).find((one) => String(one.id) === id);
  if (!photo) return noPicture();
  const read = () => photoStore(link.shop).get(photoFiles(photo.file)[size]);
  return picture(read, size === "large" ? photo.hash : `${photo.hash}-small`, request);
}
