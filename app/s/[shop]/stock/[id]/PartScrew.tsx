import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { screwOfPart } from "@/lib/data/parts/screws";
import { screwText } from "@/lib/domain/stock/screws";
import type { OpenShop } from "@/lib/gate/open";
import { keepScrew } from "../actions";
import { ScrewFields } from "../screws/ScrewFields";

/** A screw in stock: what it is, so that it is found from a worn one. */
export async function PartScrew({
  shop,
  partId,
  mayWrite,
}: {
  shop: OpenShop;
  partId: number;
  mayWrite: boolean;
}) {
  const screw = await screwOfPart(shop, partId);
  return (
    <Section title="The screw">
      <p className={screw ? "mb-2 font-mono" : "mb-2 text-soft"}>
        {screw ? screwText(screw) : "Not described: it is not found from a worn one yet."}
      </p>
      {mayWrite && (
        <details>
          <summary className="inline-flex min-h-6 items-center underline decoration-dotted underline-offset-4 pointer-coarse:min-h-12">
            {screw ? "Change it" : "Describe it"}
          </summary>
          <Form action={keepScrew} shop={shop.slug} hidden={{ id: String(partId) }} label="The screw">
            <ScrewFields screw={screw} />
            <SubmitButton>Record the screw</SubmitButton>
          </Form>
        </details>
      )}
      <LinkButton href={`/s/${shop.slug}/stock/screws`} tone="quiet">
        Find a screw from a worn one
      </LinkButton>
    </Section>
  );
}
