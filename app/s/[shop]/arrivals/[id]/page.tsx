import { notFound } from "next/navigation";
import { buttonLook } from "@/app/_ui/buttonLook";
import { FileLink } from "@/app/_ui/FileLink";
import { Form } from "@/app/_ui/Form";
import { Instant } from "@/app/_ui/Instant";
import { Link } from "@/app/_ui/Link";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Note } from "@/app/_ui/Note";
import { Paper } from "@/app/_ui/Paper";
import { PhotoTake } from "@/app/_ui/PhotoTake";
import { Section } from "@/app/_ui/Section";
import { SignatureField } from "@/app/_ui/SignatureField";
import { SignatureLine } from "@/app/_ui/SignatureLine";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { type ArrivalView, getArrival } from "@/lib/data/arrivals/get";
import { pathId } from "@/lib/gate/ids";
import { type OpenShop, open } from "@/lib/gate/open";
import { arrivalWords } from "@/lib/words/arrival";
import { ShopThumbs } from "../../_photos/ShopThumbs";
import { PrintButton } from "../../jobs/[id]/PrintButton";
import { paperOf } from "../../jobs/[id]/paper";
import { ArrivalDrawings, ArrivalFacts, damageText } from "../ArrivalShown";
import { sign } from "../actions";

const words = arrivalWords("en");
const LINK = "inline-flex min-h-6 items-center underline underline-offset-4 pointer-coarse:min-h-12";

/** How a bike came: to be looked at together, signed, and printed. */
export default async function ArrivalPage({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("bike.read", slug);
  const arrival = await getArrival(shop, pathId(id));
  if (!arrival) notFound();
  const { settings } = shop;
  const { job, bike, customer, replacedBy, signedAt, signedBy, signature } = arrival;
  const mayWrite = shop.can("intake.write") && replacedBy === null;
  const base = `/s/${slug}`;
  const back = job ? `${base}/jobs/${job.id}` : `${base}/bikes/${bike.id}`;
  return (
    <Paper size={paperOf(settings.country)}>
      <title>{`Arrival of ${bike.name} · ${shop.name}`}</title>
      <div className="mb-4 flex flex-wrap gap-2.5 print:hidden">
        <LinkButton href={back}>{job ? "Back to the job" : "To the bike"}</LinkButton>
        {mayWrite && (
          <LinkButton href={`${base}/arrivals/new?corrects=${arrival.id}`}>Put it right</LinkButton>
        )}
        <FileLink href={`/api/s/${slug}/arrivals/${arrival.id}`} className={buttonLook("second")}>
          PDF
        </FileLink>
        <PrintButton />
      </div>
      {replacedBy && (
        <Note title="A later record replaces this one.">
          <Link href={`${base}/arrivals/${replacedBy.id}`} className={LINK}>
            Open it
          </Link>
        </Note>
      )}
      <header className="mb-4 flex flex-wrap items-end justify-between gap-4 border-ink border-b-2 pb-2">
        <div>
          <h1 className="font-bold text-[26px] leading-tight">{words.title}</h1>
          <p>
            {[bike.name, bike.plate].filter(Boolean).join(", ")}
            {job && `, job ${job.number}`}
          </p>
          <p>{customer.name}</p>
        </div>
        <p className="text-end">
          <strong>{settings.name}</strong>
          <br />
          <Instant at={arrival.at.toISOString()} {...settings} />
          {arrival.takenBy && <span className="text-soft">, {arrival.takenBy}</span>}
        </p>
      </header>
      <Section title="As it stood">
        <ArrivalFacts arrival={arrival} place={settings} />
      </Section>
      <Damages shop={shop} arrival={arrival} open={mayWrite && signedAt === null} />
      {arrival.words && (
        <Section title={words.words}>
          <p className="whitespace-pre-line">{arrival.words}</p>
        </Section>
      )}
      <Section title="Signature">
        {signedAt ? (
          <SignatureLine signedBy={signedBy} signedAt={signedAt} signature={signature} {...settings} />
        ) : mayWrite ? (
          <Form
            action={sign}
            shop={slug}
            hidden={{ id: String(arrival.id), version: String(arrival.version) }}
            label="Sign it"
            className="print:hidden"
          >
            <p className="mb-3">{words.sign}</p>
            <SignatureField by={customer.name} />
            <SubmitButton size="act">Sign it</SubmitButton>
          </Form>
        ) : (
          <p className="text-soft">It was not signed.</p>
        )}
      </Section>
    </Paper>
  );
}

async function Damages({
  shop,
  arrival,
  open: mayTake,
}: {
  shop: OpenShop;
  arrival: ArrivalView;
  open: boolean;
}) {
  const sees = shop.can("photo.read");
  return (
    <Section title={words.damage}>
      <ArrivalDrawings damages={arrival.damages} />
      {arrival.damages.length === 0 && <p className="mt-2">{words.whole}</p>}
      <ol className="mt-2">
        {arrival.damages.map((one) => (
          <li key={one.id} className="border-hair border-b py-2">
            <span className="mr-3 font-mono">{one.number}</span>
            {damageText(one)}
            {sees && <ShopThumbs slug={shop.slug} photos={one.photos} of={damageText(one)} row />}
            {mayTake && shop.can("photo.write") && (
              <div className="mt-1 print:hidden">
                <PhotoTake shop={shop.slug} noun="damage" id={one.id} of={`of mark ${one.number}`} />
              </div>
            )}
          </li>
        ))}
      </ol>
    </Section>
  );
}
