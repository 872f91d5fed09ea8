import type { ReactNode } from "react";
import { DataTable } from "@/app/_ui/DataTable";
import { Section } from "@/app/_ui/Section";
import type { TableColumn } from "@/app/_ui/tableTypes";
import { dayOf } from "@/lib/domain/schedule/localTime";
import type { JobState } from "@/lib/schemas/jobs";
import { jobWord } from "@/lib/schemas/jobWords";
import type { QuoteStateName } from "@/lib/schemas/quotes";
import { QUOTE_WORDS } from "@/lib/schemas/quoteWords";

export interface Formats {
  readonly slug: string;
  readonly locale: string;
  readonly zone: string;
  readonly currency: string;
}

interface QuoteLine {
  readonly id: number;
  readonly number: string;
  readonly title: string;
  readonly state: QuoteStateName;
  readonly grossMinor: number;
  readonly createdAt: Date;
}

interface JobLine {
  readonly id: number;
  readonly number: string;
  readonly title: string;
  readonly state: JobState;
  readonly stopped: string;
  readonly arrivedAt: Date | null;
  readonly createdAt: Date;
}

const start: readonly TableColumn[] = [
  { key: "number", header: "Number", kind: "figure", align: "start" },
  { key: "title", header: "What" },
  { key: "day", header: "Made", kind: "date" },
];
const state: TableColumn = { key: "state", header: "State", kind: "state" };

/** Quotes, newest first. */
export function Quotes({
  formats,
  quotes,
  aside,
}: {
  formats: Formats;
  quotes: readonly QuoteLine[];
  aside?: ReactNode;
}) {
  return (
    <Section title="Quotes" aside={aside}>
      <DataTable
        caption="Quotes"
        columns={[...start, { key: "gross", header: "Total", kind: "money" }, state]}
        locale={formats.locale}
        rows={quotes.map((quote) => ({
          id: String(quote.id),
          href: `/s/${formats.slug}/quotes/${quote.id}`,
          number: String(quote.number),
          title: quote.title,
          day: dayOf(quote.createdAt.getTime(), formats.zone),
          gross: { minor: quote.grossMinor, currency: formats.currency },
          state: QUOTE_WORDS[quote.state],
        }))}
        empty={<p className="text-soft">None yet.</p>}
      />
    </Section>
  );
}

/** Jobs, newest first. */
export function Jobs({ formats, jobs }: { formats: Formats; jobs: readonly JobLine[] }) {
  return (
    <Section title="Jobs">
      <DataTable
        caption="Jobs"
        columns={[...start, state]}
        locale={formats.locale}
        rows={jobs.map((job) => ({
          id: String(job.id),
          href: `/s/${formats.slug}/jobs/${job.id}`,
          number: String(job.number),
          title: job.title,
          day: dayOf(job.createdAt.getTime(), formats.zone),
          state: jobWord(job),
        }))}
        empty={<p className="text-soft">None yet.</p>}
      />
    </Section>
  );
}
