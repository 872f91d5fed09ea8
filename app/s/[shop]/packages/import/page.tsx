import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { open } from "@/lib/gate/open";
import { bringIn } from "../actions";
import { FileText } from "./FileText";

/** A package from a file that this or another shop saved. */
export default async function ImportPackage({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("package.write", slug);
  return (
    <>
      <PageHead
        of={shop.name}
        title="Package from a file"
        sub="It comes in as a draft and changes nothing that is there"
        actions={<LinkButton href={`/s/${slug}/packages`}>Back</LinkButton>}
      />
      <Form action={bringIn} shop={slug} label="Package from a file" className="max-w-[46rem]">
        <FileText />
        <div className="grid gap-x-6 sm:grid-cols-2">
          <TextField name="code" label="Code" hint="Empty: as the file says" mono maxLength={24} />
          <TextField name="name" label="Name" hint="Empty: as the file says" maxLength={120} />
        </div>
        <SubmitButton>Bring it in</SubmitButton>
      </Form>
    </>
  );
}
