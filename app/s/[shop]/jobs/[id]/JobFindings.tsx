import { Form } from "@/app/_ui/Form";
import { Link } from "@/app/_ui/Link";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import type { JobView } from "@/lib/data/jobs/get";
import type { ListedPhoto } from "@/lib/data/photos/list";
import { ShopThumbs } from "../../_photos/ShopThumbs";
import { noteFound } from "../actions";

const LOOK = {
  open: { shape: "diamond", word: "waits" },
  quoted: { shape: "circle", word: "quoted" },
  agreed: { shape: "filled", word: "agreed" },
  noted: { shape: "dash", word: "noted" },
} as const;

interface JobFindingsProps {
  job: JobView;
  slug: string;
  mayNote: boolean;
  mayQuote: boolean;
  /** By finding; empty where the role sees none. */
  photos: ReadonlyMap<number, readonly ListedPhoto[]>;
}

/** What was found on the bike; an open finding becomes a variation or a note. */
export function JobFindings({ job, slug, mayNote, mayQuote, photos }: JobFindingsProps) {
  if (job.findings.length === 0 && job.variations.length === 0) return null;
  return (
    <Section title="Found">
      <ul>
        {job.findings.map((finding) => {
          const look = LOOK[finding.state];
          return (
            <li key={finding.id} className="border-hair border-b py-2">
              <p className="flex justify-between gap-4">
                <span>
                  {finding.text}
                  {finding.step && <span className="text-soft"> · at {finding.step.name}</span>}
                </span>
                <State shape={look.shape}>{look.word}</State>
              </p>
              <ShopThumbs slug={slug} photos={photos.get(finding.id) ?? []} of={finding.text} />
              {finding.state === "open" && (
                <div className="mt-2 flex flex-wrap gap-3">
                  {mayNote && (
                    <Form
                      action={noteFound}
                      shop={slug}
                      hidden={{ findingId: String(finding.id), version: String(finding.version) }}
                    >
                      <SubmitButton tone="second">Only note it</SubmitButton>
                    </Form>
                  )}
                  {mayQuote && (
                    <LinkButton
                      href={`/s/${slug}/quotes/new?bike=${job.bike.id}&job=${job.id}&finding=${finding.id}`}
                    >
                      Quote it as a variation
                    </LinkButton>
                  )}
                </div>
              )}
            </li>
          );
        })}
        {job.variations.map((quote) => (
          <li key={quote.id} className="flex justify-between gap-4 border-hair border-b py-2">
            <Link href={`/s/${slug}/quotes/${quote.id}`} className="text-brass underline underline-offset-4">
              Variation, quote {quote.number}
            </Link>
            <span>{quote.state}</span>
          </li>
        ))}
      </ul>
    </Section>
  );
}
