import { notFound } from "next/navigation";
import { Empty } from "@/app/_ui/Empty";
import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { type Alternatives, getAlternatives } from "@/lib/data/quotes/alternatives";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { LETTERS } from "@/lib/schemas/quoteLife";
import { keepAlternativeOf } from "../../actions";
import { AlternativeCurves } from "./AlternativeCurves";
import { AlternativeTable } from "./AlternativeTable";

/** Up to three alternatives of one draft side by side, as of today. */
export default async function SideBySide({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("quote.read", slug);
  const found = await getAlternatives(shop, pathId(id));
  if (!found) notFound();
  const mayWrite = shop.can("quote.write");
  return (
    <>
      <PageHead
        of={shop.name}
        title={`Quote ${found.number}: side by side`}
        sub="Computed as of today"
        actions={<LinkButton href={`/s/${slug}/quotes/${id}`}>Back to the quote</LinkButton>}
      />
      {found.alternatives.length === 0 ? (
        <Empty
          title="No alternative kept yet."
          text="Tick the options as you want them, then keep them here as A, B or C."
        />
      ) : (
        <>
          <AlternativeTable slug={slug} id={pathId(id)} alternatives={found} mayWrite={mayWrite} />
          <AlternativeCurves alternatives={found} />
        </>
      )}
      {mayWrite && <Keep slug={slug} id={id} alternatives={found} />}
    </>
  );
}

function Keep({ slug, id, alternatives }: { slug: string; id: string; alternatives: Alternatives }) {
  return (
    <Section title="Keep what is ticked now">
      <Form
        key={alternatives.alternatives.map((w) => w.letter).join()}
        action={keepAlternativeOf}
        shop={slug}
        hidden={{ id, version: String(alternatives.version) }}
        label="Keep what is ticked now"
        className="grid max-w-[46rem] items-end gap-x-4 sm:grid-cols-[12rem_minmax(0,1fr)_auto]"
      >
        <SelectField
          name="letter"
          label="As"
          initial={alternatives.free[0] ?? "A"}
          options={LETTERS.map((l) => ({
            value: l,
            label: alternatives.free.includes(l) ? l : `${l}, written over`,
          }))}
        />
        <TextField name="name" label="Name (may stay empty)" maxLength={60} />
        <SubmitButton className="mb-4">Keep it</SubmitButton>
      </Form>
    </Section>
  );
}
