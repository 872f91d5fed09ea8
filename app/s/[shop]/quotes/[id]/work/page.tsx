import { notFound } from "next/navigation";
import { Form } from "@/app/_ui/Form";
import { PageHead } from "@/app/_ui/PageHead";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import { TextField } from "@/app/_ui/TextField";
import { accessNames, gradesToName } from "@/lib/data/packages/supplies";
import { getWork } from "@/lib/data/quotes/getWork";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { PartRows } from "../../../packages/[id]/edit/[part]/PartRows";
import { putParts, putText } from "./actions";
import { WrittenForm } from "./WrittenForm";

interface Props {
  params: Promise<{ shop: string; id: string }>;
  searchParams: Promise<{ kind?: string; work?: string }>;
}

const TITLES = { written: "A work", parts: "Parts", text: "A text" } as const;

/** One work of a draft that is no package: a new one, or one that stands there. */
export default async function WorkPage({ params, searchParams }: Props) {
  const { shop: slug, id } = await params;
  const shop = await open("quote.write", slug);
  const { kind, work: key } = await searchParams;
  const found = await getWork(shop, pathId(id), key);
  if (!found || (key !== undefined && !found.work)) notFound();
  const { quote, work } = found;
  const shown = work?.kind ?? kind;
  if (shown !== "written" && shown !== "parts" && shown !== "text") notFound();
  const hidden = {
    id: String(quote.id),
    version: String(quote.version),
    isNew: work ? "no" : "yes",
    work: key ?? "",
  };
  return (
    <>
      <PageHead
        of={shop.name}
        title={work?.name || TITLES[shown]}
        sub={`Quote ${quote.number}, ${quote.bike}`}
      />
      {shown === "written" && (
        <WrittenForm
          slug={slug}
          hidden={hidden}
          work={work?.kind === "written" ? work : null}
          currency={shop.settings.currency}
          locale={shop.settings.locale}
          grades={await gradesToName(shop)}
          accesses={await accessNames(shop)}
        />
      )}
      {shown === "parts" && (
        <Form action={putParts} shop={slug} hidden={hidden} label="Parts" className="max-w-[52rem]">
          <TextField
            name="name"
            label="Heading"
            hint="Empty: “Parts”"
            initial={work?.kind === "parts" ? work.name : ""}
            maxLength={120}
          />
          <PartRows
            rows={work?.kind === "parts" ? work.parts.map((part) => ({ kind: "part", ...part })) : []}
            shop={slug}
          />
          <SubmitButton>{work ? "Save the parts" : "Put them on the quote"}</SubmitButton>
        </Form>
      )}
      {shown === "text" && (
        <Form action={putText} shop={slug} hidden={hidden} label="A text" className="max-w-[40rem]">
          <TextField name="name" label="Heading" initial={work?.name ?? ""} required maxLength={120} />
          <TextArea
            name="text"
            label="Words"
            initial={work?.kind === "text" ? work.text : ""}
            rows={4}
            maxLength={2000}
          />
          <SubmitButton>{work ? "Save the text" : "Put it on the quote"}</SubmitButton>
        </Form>
      )}
    </>
  );
}
