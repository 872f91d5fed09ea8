import NextForm from "next/form";
import { notFound } from "next/navigation";
import { Empty } from "@/app/_ui/Empty";
import { PageHead } from "@/app/_ui/PageHead";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { drawer } from "@/lib/data/stock/drawer";
import { getPart, listFamilies } from "@/lib/data/stock/parts";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { SplitForm } from "./SplitForm";

export default async function SplitPage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string; id: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug, id } = await params;
  const asked = (await searchParams).family;
  const shop = await open("stock.write", slug);
  const [part, families] = await Promise.all([getPart(shop, pathId(id), false), listFamilies(shop)]);
  if (!part) notFound();
  const family = typeof asked === "string" && families.includes(asked) ? asked : families[0];
  const sizes = family ? (await drawer(shop, family)).filter((size) => size.partId !== part.id) : [];
  return (
    <>
      <PageHead of={shop.name} title={`Open ${part.code}`} sub={part.name} />
      {families.length === 0 ? (
        <Empty
          title="There is no drawer to put the pieces in."
          text="Add the single sizes first, with a family and a size."
        />
      ) : (
        <>
          <NextForm
            action={`/s/${slug}/stock/${part.id}/split`}
            className="mb-4 flex max-w-[28rem] items-end gap-2.5"
          >
            <SelectField
              name="family"
              label="The pieces are"
              initial={family}
              options={families.map((value) => ({ value, label: value }))}
              className="flex-1"
            />
            <div className="mb-4">
              <SubmitButton tone="second">Show</SubmitButton>
            </div>
          </NextForm>
          <SplitForm
            key={family}
            shop={slug}
            partId={part.id}
            unit={part.unit}
            sizes={sizes.map((size) => ({ partId: size.partId, code: size.code, name: size.name }))}
          />
        </>
      )}
    </>
  );
}
