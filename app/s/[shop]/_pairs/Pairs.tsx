import { Form } from "@/app/_ui/Form";
import { instantText } from "@/app/_ui/format";
import { Link } from "@/app/_ui/Link";
import { PhotoTake } from "@/app/_ui/PhotoTake";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import type { PairView } from "@/lib/data/photos/pairs";
import { PAIR_WORDS } from "@/lib/domain/procedures/observing";
import type { OpenShop } from "@/lib/gate/open";
import { ShopThumbs } from "../_photos/ShopThumbs";
import { THROTTLE_WORDS } from "../jobs/[id]/rideWords";
import { removeEmpty } from "./actions";

const SIDES = [
  ["before", "pairBefore"],
  ["after", "pairAfter"],
] as const;

interface Props {
  readonly shop: OpenShop;
  readonly pairs: readonly PairView[];
  /** Of several bikes: each says which. */
  readonly named?: boolean | undefined;
}

/** Pairs of photos, before beside after. */
export function Pairs({ shop, pairs, named }: Props) {
  const { locale, zone } = shop.settings;
  const mayWrite = shop.can("photo.write");
  return pairs.map((pair) => {
    const what = `${PAIR_WORDS[pair.subject]}, at ${THROTTLE_WORDS[pair.throttle]}`;
    return (
      <section key={pair.id} aria-label={what} className="keep mb-6 border-hair border-b pb-3">
        <h3 className="font-semibold first-letter:uppercase">{what}</h3>
        <p className="text-[14px] text-soft">
          {named && (
            <Link href={`/s/${shop.slug}/bikes/${pair.bike.id}`} className="underline underline-offset-4">
              {[pair.bike.customer.name, pair.bike.plate].filter(Boolean).join(", ")}
            </Link>
          )}
          {named && ", "}
          {instantText(pair.at.toISOString(), locale, zone, "date")}
          {pair.job && `, job ${pair.job.number}`}
        </p>
        {pair.note && <p className="whitespace-pre-line text-[15px]">{pair.note}</p>}
        <div className="mt-1 grid max-w-[760px] grid-cols-2 gap-x-4">
          {SIDES.map(([side, noun]) => (
            <div key={side} className="min-w-0">
              <p className="text-[14px] text-soft first-letter:uppercase">{side}</p>
              <ShopThumbs slug={shop.slug} photos={pair[side]} of={`${what}, ${side}`} />
              {mayWrite && <PhotoTake shop={shop.slug} noun={noun} id={pair.id} of={`of ${what}, ${side}`} />}
            </div>
          ))}
        </div>
        {mayWrite && pair.before.length + pair.after.length === 0 && (
          <Form
            action={removeEmpty}
            shop={shop.slug}
            hidden={{ pairId: String(pair.id), version: String(pair.version) }}
            label={`Remove ${what}`}
            className="mt-2"
          >
            <SubmitButton tone="quiet">Remove this pair</SubmitButton>
          </Form>
        )}
      </section>
    );
  });
}
