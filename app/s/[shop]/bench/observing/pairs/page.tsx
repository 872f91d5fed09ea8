import Form from "next/form";
import { buttonLook } from "@/app/_ui/buttonLook";
import { Empty } from "@/app/_ui/Empty";
import { Link } from "@/app/_ui/Link";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { PickField } from "@/app/_ui/PickField";
import { SelectField } from "@/app/_ui/SelectField";
import { pickedModelCard, pickModelCards } from "@/lib/data/bikes/pick";
import { MOST_NEWEST } from "@/lib/data/common/picks";
import { listPairs } from "@/lib/data/photos/pairs";
import { PAIR_WORDS, PHOTO_LIMITS } from "@/lib/domain/procedures/observing";
import { open } from "@/lib/gate/open";
import { PairSearchSchema } from "@/lib/schemas/photoPairs";
import { Pairs } from "../../../_pairs/Pairs";
import { choices, THROTTLE_WORDS } from "../../../jobs/[id]/rideWords";

/** Photos in pairs over all bikes, found again by model, part and opening. */
export default async function AllPairs({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug } = await params;
  const shop = await open("photo.read", slug);
  const asked = PairSearchSchema.parse(await searchParams);
  const [{ rows, next }, card, cards] = await Promise.all([
    listPairs(shop, asked),
    pickedModelCard(shop, asked.card),
    pickModelCards(shop, "", MOST_NEWEST),
  ]);
  const here = `/s/${slug}/bench/observing/pairs`;
  const query = new URLSearchParams(
    Object.entries({ ...asked, after: next ?? undefined }).flatMap(([name, value]) =>
      value === undefined ? [] : [[name, String(value)]],
    ),
  );
  const any = { value: "", label: "any" };
  return (
    <>
      <PageHead
        of={shop.name}
        title="Photos in pairs"
        sub={
          <Link href={`/s/${slug}/bench/observing`} className="text-brass underline underline-offset-4">
            Reading the plug and the engine
          </Link>
        }
      />
      <Note title="No verdict.">{PHOTO_LIMITS}</Note>
      <Form action={here} aria-label="Find pairs" className="flex flex-wrap items-start gap-x-3 print:hidden">
        <PickField
          shop={slug}
          from="cards"
          name="card"
          label="Model card"
          newest={cards.rows}
          chosen={card}
          blank="Any model"
          className="flex-1 basis-56"
        />
        <SelectField
          name="subject"
          label="It shows"
          initial={asked.subject ?? ""}
          options={[any, ...choices(PAIR_WORDS)]}
          className="basis-36"
        />
        <SelectField
          name="throttle"
          label="At throttle"
          initial={asked.throttle ?? ""}
          options={[any, ...choices(THROTTLE_WORDS)]}
          className="basis-36"
        />
        <button type="submit" className={buttonLook("second", undefined, "mt-7")}>
          Find
        </button>
      </Form>
      {rows.length === 0 && (
        <Empty title="No pair like this." text="Pairs are begun on a bike, before anything is changed." />
      )}
      <Pairs shop={shop} pairs={rows} named />
      {next && <LinkButton href={`${here}?${query}`}>Older ones</LinkButton>}
    </>
  );
}
