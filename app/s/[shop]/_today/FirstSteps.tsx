import { Form } from "@/app/_ui/Form";
import { Link } from "@/app/_ui/Link";
import { Section } from "@/app/_ui/Section";
import { Shape } from "@/app/_ui/Shape";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import type { FirstStep, FirstStepKey } from "@/lib/data/today/firstSteps";
import { putFirstStepsAway } from "../shop/actions";

const STEPS: Readonly<Record<FirstStepKey, readonly [title: string, unlocks: string, path: string]>> = {
  identity: ["Say who you are", "Address and bank details stand on quotes and invoices.", "/shop/settings"],
  rate: ["Set what an hour costs", "Without it no quote can be sent.", "/shop/prices"],
  hours: ["Look at bays and hours", "Bookings offer only times when someone is here.", "/shop/hours"],
  people: ["Invite who works with you", "Each has a sign-in, a role and hours of their own.", "/shop/people"],
  data: ["Bring your customers, bikes and parts", "From a CSV file, or one by one as they come.", "/import"],
  package: ["Take a starter package over", "A priced recipe that you edit to your own way.", "/packages/new"],
  published: ["Publish a package", "Only then can a quote be made from it.", "/packages"],
  quote: ["Make the first quote", "For a bike, with its price as you tick.", "/quotes/new"],
};

/** What a new shop does first, with what each unlocks. It goes when all is done, or when the owner puts it away. */
export function FirstSteps({ steps, slug }: { steps: readonly FirstStep[]; slug: string }) {
  const left = steps.filter((step) => !step.done).length;
  return (
    <Section
      title="First steps"
      aside={
        <Form action={putFirstStepsAway} shop={slug} label="Put first steps away">
          <SubmitButton tone="quiet">Put this list away</SubmitButton>
        </Form>
      }
    >
      <p className="text-soft">
        {steps.length - left} of {steps.length} done. The list stays in Shop. To try things first,{" "}
        <Link href="/account/sample" className="text-brass underline underline-offset-4">
          open a sample shop
        </Link>
        .
      </p>
      <ol className="grid gap-x-8 lg:grid-cols-2">
        {steps.map(({ key, done }) => {
          const [title, unlocks, path] = STEPS[key];
          return (
            <li key={key} className="flex items-baseline gap-3 border-hair border-b">
              <Shape shape={done ? "filled" : "circle"} tone={done ? "pine" : "soft"} />
              <Link href={`/s/${slug}${path}`} className="min-h-12 min-w-0 flex-1 py-2.5 no-underline">
                <strong>{title}</strong>
                {done && <span className="text-pine"> · done</span>}
                <span className="block text-[15px] text-soft">{unlocks}</span>
              </Link>
            </li>
          );
        })}
      </ol>
    </Section>
  );
}
