import { notFound } from "next/navigation";
import { CheckField } from "@/app/_ui/CheckField";
import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { getPackage } from "@/lib/data/packages/get";
import { offersTo } from "@/lib/data/packages/offers";
import type { Difference } from "@/lib/domain/library/merge";
import type { Offer } from "@/lib/domain/library/offer";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { answerLibrary } from "../../actions";

/** What the library says otherwise now than when this package picked it, difference by difference: into a draft, or left. */
export default async function LibraryOffers({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("package.write", slug);
  const found = await getPackage(shop, pathId(id));
  if (!found) notFound();
  const offers = await offersTo(shop, found.id);
  const entries = [...Map.groupBy(offers, ({ entry, print }) => `${entry} ${print}`)];
  return (
    <>
      <PageHead
        of={shop.name}
        title="Changed in the library"
        sub={found.name}
        actions={<LinkButton href={`/s/${slug}/packages/${id}`}>To the package</LinkButton>}
      />
      {entries.length === 0 ? (
        <p>This package says what the library says, or you left what was changed.</p>
      ) : (
        <Form
          action={answerLibrary}
          shop={slug}
          hidden={{ packageId: id }}
          label="Changed in the library"
          className="max-w-[60rem]"
        >
          {entries.map(([value, own]) => (
            <OneEntry key={value} value={value} offers={own} />
          ))}
          <div className="mt-4 flex flex-wrap gap-3">
            <SubmitButton size="act" name="answer" value="take" className="max-sm:w-full">
              Put what is ticked into a draft
            </SubmitButton>
            <SubmitButton size="act" tone="second" name="answer" value="leave" className="max-sm:w-full">
              Leave what is ticked
            </SubmitButton>
          </div>
          <p className="mt-2 max-w-prose text-[14px] text-soft">
            A draft changes nothing that is published. What is left is offered again once the library changes
            it anew.
          </p>
        </Form>
      )}
    </>
  );
}

function OneEntry({ value, offers }: { value: string; offers: readonly Offer[] }) {
  const names = [...new Set(offers.map(({ item }) => item))].join(", ");
  return (
    <div className="border-hair border-b pb-3">
      <CheckField name="offers[]" value={value} label={names} initial />
      <ul className="pl-8">
        {offers.flatMap(({ item, differences }) =>
          differences.map((one) => <Changed key={`${item} ${one.what}`} one={one} />),
        )}
      </ul>
    </div>
  );
}

function Changed({ one: { what, was, now, taken } }: { one: Difference }) {
  return (
    <li className="py-0.5">
      <span className="font-semibold">{`${what}: `}</span>
      {was && <del>{was}</del>}
      {was && now && " "}
      {now && <ins className="bg-brass-wash">{now}</ins>}
      {!taken && <span className="block text-[14px] text-soft">Changed here by hand: yours stays.</span>}
    </li>
  );
}
