import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { open } from "@/lib/gate/open";
import { FileText } from "../../import/FileText";
import { bringLibraryIn } from "../actions";

/** A library from a file that this or another shop saved. */
export default async function ImportLibrary({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("package.write", slug);
  return (
    <>
      <PageHead
        of={shop.name}
        title="Library from a file"
        sub="What is in your library already stays as it is"
        actions={<LinkButton href={`/s/${slug}/packages/library`}>Back</LinkButton>}
      />
      <Form action={bringLibraryIn} shop={slug} label="Library from a file" className="max-w-[46rem]">
        <FileText />
        <SubmitButton>Bring it in</SubmitButton>
      </Form>
    </>
  );
}
