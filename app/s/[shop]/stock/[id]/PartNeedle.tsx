import { Form } from "@/app/_ui/Form";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { needleOfPart } from "@/lib/data/stock/needles";
import type { OpenShop } from "@/lib/gate/open";
import { NeedleRecordFields } from "../../_needle/NeedleRecordFields";
import { NeedleStations } from "../../_needle/NeedleStations";
import { measureNeedleInStock } from "../actions";

/** A needle in stock: the same facts as of one on a bike, so that a quote can compute with it. */
export async function PartNeedle({
  shop,
  partId,
  mayWrite,
}: {
  shop: OpenShop;
  partId: number;
  mayWrite: boolean;
}) {
  const record = await needleOfPart(shop, partId);
  return (
    <Section title="The needle">
      {record ? (
        <NeedleStations
          caption="Diameters below the shoulder"
          columns={[{ name: "diameter", record }]}
          locale={shop.settings.locale}
        />
      ) : (
        <p className="text-soft">Not measured: quotes cannot compute with it yet.</p>
      )}
      {mayWrite && (
        <details>
          <summary className="inline-flex min-h-6 items-center underline decoration-dotted underline-offset-4 pointer-coarse:min-h-12">
            {record ? "Measure it again" : "Measure it"}
          </summary>
          <Form
            action={measureNeedleInStock}
            shop={shop.slug}
            hidden={{ id: String(partId) }}
            label="The needle"
          >
            <NeedleRecordFields last={record ?? BOUGHT} />
            <SubmitButton>Record the needle</SubmitButton>
          </Form>
        </details>
      )}
    </Section>
  );
}

const BOUGHT = {
  origin: "bought",
  marks: "",
  stations: [],
  micrometerMm: null,
  grooves: null,
  grooveStepMm: null,
  grooveAt: null,
  planeMm: null,
  note: "",
} as const;
