import { Form } from "@/app/_ui/Form";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import type { BenchQuery } from "@/lib/schemas/bench";
import { putTripOnSheet } from "../actions";

/** Puts the trip's setting on the bike's target sheet; it is computed again from the same inputs. */
export function PutOnSheet({
  slug,
  bikeId,
  query,
  size,
}: {
  slug: string;
  bikeId: number;
  query: BenchQuery;
  size: number;
}) {
  const address = new URLSearchParams({ ...query, bike: String(bikeId) }).toString();
  return (
    <Section title="Keep it" className="print:hidden">
      <Form action={putTripOnSheet} shop={slug} hidden={{ address }} label="Put on the target sheet">
        <p className="mb-2 text-[15px] text-soft">
          Main jet {size} and the screw as computed; everything else as fitted.
        </p>
        <SubmitButton>Put on the bike's target sheet</SubmitButton>
      </Form>
    </Section>
  );
}
