import { notFound } from "next/navigation";
import { PageHead } from "@/app/_ui/PageHead";
import { previewBikes } from "@/lib/data/merging/bikes";
import { bikeDoubles } from "@/lib/data/merging/candidates";
import { askedId, pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { mergeTwoBikes } from "../../../_merge/actions";
import { ChooseDouble } from "../../../_merge/ChooseDouble";
import { MergeView } from "../../../_merge/MergeView";

export default async function MergeBikePage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string; id: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const [{ shop: slug, id }, asked] = await Promise.all([params, searchParams]);
  const shop = await open("record.merge", slug);
  const ownId = pathId(id);
  const other = askedId(asked.with);
  const q = String(asked.q ?? "").slice(0, 100);
  const room = `/s/${slug}/bikes`;
  const found = other === undefined ? null : await previewBikes(shop.read, ownId, other);
  if (other !== undefined && !found) notFound();
  return (
    <>
      <PageHead of={shop.name} title="Merge two bikes" />
      {found ? (
        <MergeView
          shop={slug}
          noun="bike"
          home={`${room}/${ownId}`}
          swapped={`${room}/${other}/merge?with=${ownId}`}
          preview={found.preview}
          action={mergeTwoBikes}
        />
      ) : (
        <ChooseDouble
          here={`${room}/${ownId}/merge`}
          q={q}
          candidates={(await bikeDoubles(shop, ownId, q)) ?? notFound()}
        />
      )}
    </>
  );
}
