import { CheckField } from "@/app/_ui/CheckField";
import { Form } from "@/app/_ui/Form";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import type { OpenShop } from "@/lib/gate/open";
import { tellEffects } from "../actions";

/** Whether customers read on a quote what its packages did on other bikes here. */
export function EffectsOnQuotes({ shop }: { shop: OpenShop }) {
  return (
    <Section title="What packages did here" className="mt-8 max-w-[760px]">
      <Form action={tellEffects} shop={shop.slug} label="What packages did here">
        <CheckField
          name="on"
          label="Tell customers on their quotes"
          detail="How many bikes, the middle change and its ends, as read before and after; no bike and no name. You see it on every draft either way."
          initial={shop.settings.effectsOnQuotes}
        />
        <SubmitButton tone="second">Save</SubmitButton>
      </Form>
    </Section>
  );
}
