import { notFound } from "next/navigation";
import { ActBar } from "@/app/_ui/ActBar";
import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import { getCard } from "@/lib/data/jobs/card";
import { open } from "@/lib/gate/open";
import { pathId } from "@/lib/schemas/jobs";
import { find } from "../../actions";

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
  const asked = pathId((await searchParams).step);
  const step = card.steps.find((one) => one.id === asked);
  return (
    <div data-hands-busy="" className="mx-auto max-w-xl">
      <PageHead title="Found something" sub={`Job ${card.number}, ${card.bike.name}`} />
      <Form
        action={find}
        shop={slug}
        hidden={{ jobId: String(card.id), ...(step ? { stepId: String(step.id) } : {}) }}
        label="Found something"
      >
        <TextArea
          name="text"
          label={step ? `What, at “${step.name}”` : "What"}
          hint="The desk sees it at once and can quote it as a variation."
          rows={5}
          required
          maxLength={1000}
        />
        <ActBar main={<SubmitButton size="act">Keep it</SubmitButton>}>
          <LinkButton href={`/s/${slug}/jobs/${card.id}/card`}>Back to the card</LinkButton>
        </ActBar>
      </Form>
    </div>
  );
}
