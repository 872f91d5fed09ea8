import { Empty } from "@/app/_ui/Empty";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { getBike } from "@/lib/data/bikes/bikes";
import { gradesToName } from "@/lib/data/packages/supplies";
import { askedId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { OpenForm } from "./OpenForm";

interface Props {
  params: Promise<{ shop: string }>;
  searchParams: Promise<{ bike?: string; of?: string }>;
}

const OVER = ["ready", "invoiced", "closed"];

/** A job on a bike without a quote: by word, as a comeback, on the shop's own bike. */
export default async function NewJob({ params, searchParams }: Props) {
  const { shop: slug } = await params;
  const shop = await open("job.write", slug);
  const { bike: asked, of } = await searchParams;
  const bike = await getBike(shop, askedId(asked) ?? 0);
  if (!bike)
    return (
      <>
        <PageHead of={shop.name} title="Open a job" />
        <Empty
          title="Which bike is it for?"
          text="A job is opened from its bike."
          action={<LinkButton href={`/s/${slug}/bikes`}>To the bikes</LinkButton>}
        />
      </>
    );
  const grades = await gradesToName(shop);
  const earlier = bike.jobs.filter((job) => OVER.includes(job.state));
  return (
    <>
      <PageHead
        of={shop.name}
        title="Open a job"
        sub={`${bike.modelCard.make} ${bike.modelCard.model} · ${bike.customer.name}`}
      />
      <OpenForm
        slug={slug}
        bikeId={bike.id}
        customer={bike.customer.name}
        currency={shop.settings.currency}
        grades={grades.map(({ code, name }) => ({ value: code, label: name }))}
        earlier={earlier.map(({ id, number, title }) => ({
          value: String(id),
          label: `Job ${number}, ${title}`,
        }))}
        of={String(askedId(of) ?? "")}
      />
    </>
  );
}
