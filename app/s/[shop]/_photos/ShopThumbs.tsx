import { Thumbs } from "@/app/_ui/Thumbs";
import type { ListedPhoto } from "@/lib/data/photos/list";

/** Photos of something of the shop, opening on their own page. */
export function ShopThumbs({
  slug,
  photos,
  of,
  row,
}: {
  slug: string;
  photos: readonly ListedPhoto[];
  of: string;
  row?: boolean | undefined;
}) {
  return (
    <Thumbs
      photos={photos}
      of={of}
      row={row}
      small={(id) => `/api/s/${slug}/photos/${id}/small`}
      large={(id) => `/s/${slug}/photos/${id}`}
    />
  );
}
