import { Form } from "@/app/_ui/Form";
import { PageHead } from "@/app/_ui/PageHead";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import { TextField } from "@/app/_ui/TextField";
import { open } from "@/lib/gate/open";
import { startPackage } from "../actions";

export default async function NewPackage({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  await open("package.write", slug);
  return (
    <>
      <PageHead title="New package" />
      <Form action={startPackage} shop={slug} label="New package" className="max-w-[560px]">
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
    </>
  );
}
