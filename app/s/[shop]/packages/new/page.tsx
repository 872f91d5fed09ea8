import { Form } from "@/app/_ui/Form";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import { TextField } from "@/app/_ui/TextField";
import { STARTERS } from "@/lib/domain/packages/starters/starters";
import { open } from "@/lib/gate/open";
import { startPackage, takeStarterOver } from "../actions";

export default async function NewPackage({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("package.write", slug);
  return (
    <>
      <PageHead of={shop.name} title="New package" />
      <Section title="Begin from a starter" className="max-w-[760px]">
        <ul>
          {STARTERS.map((starter) => (
            <li
              key={starter.key}
              className="flex flex-wrap items-center justify-between gap-x-6 gap-y-2 border-hair border-b py-3"
            >
              <span className="min-w-0 flex-1 basis-[16rem]">
                <strong>{starter.name}</strong>
                <span className="block text-soft">{starter.summary}</span>
              </span>
              <Form
                action={takeStarterOver}
                shop={slug}
                hidden={{ starter: starter.key }}
                label={`Take over: ${starter.name}`}
              >
                <SubmitButton tone="second">Take it over</SubmitButton>
              </Form>
            </li>
          ))}
        </ul>
        <p className="mt-3 text-soft">
          Minutes and limits are starting figures of common practice: look them through before you publish.
        </p>
      </Section>
      <Section title="Or begin empty" className="max-w-[560px]">
        <Form action={startPackage} shop={slug} label="New package">
          <TextField
            name="code"
            label="Code"
            hint="Short, without spaces: OPEN-ROAD"
            required
            mono
            maxLength={24}
          />
          <TextField
            name="name"
            label="Name"
            hint="As customers read it on the quote"
            required
            maxLength={120}
          />
          <TextArea name="summary" label="What it is for" rows={3} maxLength={400} />
          <SubmitButton>Make the package</SubmitButton>
        </Form>
      </Section>
    </>
  );
}
