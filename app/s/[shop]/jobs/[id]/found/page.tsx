import { notFound } from "next/navigation";
import { PageHead } from "@/app/_ui/PageHead";
import { getCard } from "@/lib/data/jobs/card";
import { askedId, pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { FoundForm } from "./FoundForm";

export default async function FoundPage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string; id: string }>;
  searchParams: Promise<{ step?: string }>;
}) {
  const { shop: slug, id } = await params;
  const shop = await open("job.work", slug);
  const card = await getCard(shop, pathId(id));
  if (!card) notFound();
  const asked = askedId((await searchParams).step);
  const step = card.steps.find((one) => one.id === asked);
  return (
    <div data-hands-busy="" className="mx-auto max-w-xl">
      <PageHead of={shop.name} title="Found something" sub={`Job ${card.number}, ${card.bike.name}`} />
      <FoundForm
        slug={slug}
        jobId={card.id}
        step={step && { id: step.id, name: step.name }}
        mayPhoto={shop.can("photo.write")}
      />
    </div>
  );
}
