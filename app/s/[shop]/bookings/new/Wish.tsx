import { Link } from "@/app/_ui/Link";
import { Note } from "@/app/_ui/Note";
import type { OpenShop } from "@/lib/gate/open";
import { type BookingWish, wishText } from "@/lib/schemas/wishes";

interface Props {
  wish: BookingWish;
  /** True while the times below do not follow it. */
  aside: boolean;
  jobId: number;
  shop: OpenShop;
}

/** What the customer wished for, and whether the times below follow it. */
export function Wish({ wish, aside, jobId, shop }: Props) {
  const here = `/s/${shop.slug}/bookings/new?job=${jobId}`;
  const narrows = wish.fromDay !== null || wish.notDays.length > 0;
  return (
    <Note title="The customer wishes:">
      {wishText(wish, shop.settings.locale)}.{" "}
      {narrows && (
        <>
          {aside ? "The times below do not follow it." : "The times below follow it."}{" "}
          <Link
            href={aside ? here : `${here}&wish=aside`}
            className="inline-flex min-h-6 items-center underline underline-offset-4 pointer-coarse:min-h-12"
          >
            {aside ? "Follow the wish" : "Show every time"}
          </Link>
        </>
      )}
    </Note>
  );
}
