import { Instant } from "./Instant";
import { LinkButton } from "./LinkButton";

export interface EventListProps {
  page: {
    readonly rows: readonly {
      readonly id: number;
      readonly at: Date;
      readonly who: string;
      readonly act: string;
      readonly detail: string;
    }[];
    /** Asks for older lines. */
    readonly next: number | null;
  };
  locale: string;
  zone: string;
  /** The address of the list itself. */
  here: string;
  /** Says whose each line is. */
  named?: boolean;
}

/** Sign-ins, refusals and changes of who may come in, newest first. */
export function EventList({ page, locale, zone, here, named }: EventListProps) {
  return (
    <>
      <ul className="max-w-[980px]">
        {page.rows.map((row) => (
          <li key={row.id} className="grid gap-x-6 border-hair border-b py-2 sm:grid-cols-[190px_1fr]">
            <Instant at={row.at.toISOString()} locale={locale} zone={zone} />
            <span className="min-w-0 break-words">
              {named && <strong>{row.who} </strong>}
              {named ? row.act : <strong>{sentence(row.act)}</strong>}
              {row.detail !== "" && <span className="block text-[14px] text-soft">{row.detail}</span>}
            </span>
          </li>
        ))}
      </ul>
      {page.rows.length === 0 && <p className="text-soft">Nothing has been noted yet.</p>}
      {page.next && (
        <LinkButton href={`${here}?before=${page.next}`} tone="second" className="mt-4">
          Older
        </LinkButton>
      )}
    </>
  );
}

const sentence = (act: string) => act.charAt(0).toUpperCase() + act.slice(1);
