import { CheckField } from "@/app/_ui/CheckField";
import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { listEntries } from "@/lib/data/library/read";
import { PLACES } from "@/lib/domain/library/places";
import { STARTING_LIBRARY } from "@/lib/domain/library/starting/starting";
import { open } from "@/lib/gate/open";
import { LibraryQuery } from "@/lib/schemas/library";
import { take } from "../actions";
import { capital, familiesText, KIND_WORDS, minutesText } from "../entryWords";

/** The starting library by place: taken over whole, or entry by entry. */
export default async function StartingLibrary({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("package.write", slug);
  const there = new Set((await listEntries(shop, LibraryQuery.parse({}))).map(({ entry }) => entry.key));
  const missing = STARTING_LIBRARY.filter(({ key }) => !there.has(key));
  return (
    <>
      <PageHead
        of={shop.name}
        title="Starting library"
        sub="Minutes and limits are starting figures: common practice, no source"
        actions={<LinkButton href={`/s/${slug}/packages/library`}>To the library</LinkButton>}
      />
      {missing.length === 0 ? (
        <p>All of it is in your library.</p>
      ) : (
        <>
          <Form action={take} shop={slug} hidden={{ all: "yes" }} label="Take all of it over">
            <SubmitButton>{`Take all ${missing.length} over`}</SubmitButton>
          </Form>
          <Form action={take} shop={slug} label="Take over what is ticked" className="max-w-[60rem]">
            {PLACES.map((place) => {
              const entries = missing.filter((entry) => entry.place === place.key);
              if (entries.length === 0) return null;
              return (
                <Section key={place.key} title={place.name}>
                  <div className="grid gap-x-8 sm:grid-cols-2">
                    {entries.map((entry) => (
                      <CheckField
                        key={entry.key}
                        name="entries[]"
                        value={entry.key}
                        label={entry.name}
                        detail={[capital(KIND_WORDS[entry.kind].one), familiesText(entry)].join(" · ")}
                        figure={minutesText(entry)}
                        ruled
                      />
                    ))}
                  </div>
                </Section>
              );
            })}
            <SubmitButton tone="second">Take over what is ticked</SubmitButton>
          </Form>
        </>
      )}
    </>
  );
}
