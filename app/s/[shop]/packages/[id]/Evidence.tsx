import { Link } from "@/app/_ui/Link";
import { Section } from "@/app/_ui/Section";
import type { RevisionView } from "@/lib/data/packages/get";

/** What finished jobs showed for the changes of a revision. Nothing where it has none. */
export function Evidence({ slug, shown }: { slug: string; shown: RevisionView }) {
  if (shown.evidence.length === 0) return null;
  return (
    <Section title="Why: what jobs showed">
      <ul className="max-w-[60rem]">
        {shown.evidence.map(({ item, evidence, jobId, job }) => (
          <li key={`${jobId} ${item} ${evidence}`} className="border-hair border-b py-2">
            <strong>{item}</strong>
            <span className="block text-[15px]">{evidence}</span>
            <Link
              href={`/s/${slug}/jobs/${jobId}`}
              className="inline-flex min-h-6 items-center text-[14px] text-brass underline underline-offset-4 pointer-coarse:min-h-12"
            >
              {`Job ${job.number}`}
            </Link>
          </li>
        ))}
      </ul>
    </Section>
  );
}
