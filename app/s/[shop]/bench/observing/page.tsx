import { Link } from "@/app/_ui/Link";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { LOAD_WORDS, OBSERVED, PHOTO_LIMITS, type SignSeen } from "@/lib/domain/procedures/observing";
import { RUNNING } from "@/lib/domain/procedures/procedure";
import { procedure } from "@/lib/domain/procedures/procedures";
import { open } from "@/lib/gate/open";
import { THROTTLE_WORDS } from "../../jobs/[id]/rideWords";

/** What plug, exhaust and engine show, by throttle position and load. */
export default async function Observing({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("bench.use", slug);
  return (
    <>
      <PageHead
        of={shop.name}
        title="Reading the plug and the engine"
        sub="Bench"
        actions={
          shop.can("photo.read") && (
            <LinkButton href={`/s/${slug}/bench/observing/pairs`}>Photos in pairs</LinkButton>
          )
        }
      />
      <Note title="A sign is a question.">
        Signs point, they do not measure: settle them by a gauge, a lambda probe or a ride, one change at a
        time. Common practice, no source. {PHOTO_LIMITS}
      </Note>
      <p className="mb-4 max-w-prose text-[15px]">{RUNNING}</p>
      {OBSERVED.map(({ throttle, load, how, signs }) => (
        <Section
          key={`${throttle} ${load}`}
          title={`Throttle ${THROTTLE_WORDS[throttle]}: ${LOAD_WORDS[load]}`}
        >
          <p className="mb-2 max-w-prose text-soft">{how}</p>
          <div className="grid gap-x-8 md:grid-cols-2">
            {signs.map((one) => (
              <Sign key={one.sign} seen={one} slug={slug} />
            ))}
          </div>
        </Section>
      ))}
    </>
  );
}

function Sign({ seen, slug }: { seen: SignSeen; slug: string }) {
  return (
    <div className="keep border-hair border-b py-2">
      <h3 className="font-semibold">{seen.sign}</h3>
      <p>
        <span className="text-soft">May be:</span> {seen.may.join("; ")}.
      </p>
      <p>
        <span className="text-soft">It cannot tell:</span> {seen.cannot}
      </p>
      {seen.settle.length > 0 && (
        <p className="flex flex-wrap gap-x-4">
          {seen.settle.map((id) => (
            <Link key={id} href={`/s/${slug}/bench/procedures/${id}`} className="in-line text-brass">
              {procedure(id)?.name ?? id}
            </Link>
          ))}
        </p>
      )}
    </div>
  );
}
