import { notFound } from "next/navigation";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { usualMark } from "@/lib/data/imports/run";
import { distanceUnit } from "@/lib/domain/units/distance";
import { open } from "@/lib/gate/open";
import { ImportNounSchema } from "@/lib/schemas/imports";
import { ImportDesk } from "../ImportDesk";
import { NOUN_WORDS } from "../nouns";

export default async function ImportNounPage({
  params,
}: {
  params: Promise<{ shop: string; noun: string }>;
}) {
  const { shop: slug, noun: wanted } = await params;
  const shop = await open("import.run", slug);
  const noun = ImportNounSchema.safeParse(wanted);
  if (!noun.success) notFound();
  const { locale, units, currency } = shop.settings;
  return (
    <>
      <PageHead
        of={shop.name}
        title={`Import ${NOUN_WORDS[noun.data].name.toLowerCase()}`}
        actions={<LinkButton href={`/s/${slug}/import`}>Something else</LinkButton>}
      />
      <p className="mb-5 max-w-prose text-soft">
        All of the file comes in, or nothing does, and it can be taken back as long as nothing hangs on it.
        The same file twice makes no doubles. A blank cell leaves what is kept here as it is. Money is{" "}
        {currency}.
      </p>
      <noscript>
        <Note title="This page needs scripts.">The file is read in your browser before it is sent.</Note>
      </noscript>
      <ImportDesk
        shop={slug}
        noun={noun.data}
        mark={usualMark(locale)}
        distance={distanceUnit(units)}
        withCost={shop.can("margin.read")}
      />
    </>
  );
}
