import { buttonLook } from "./buttonLook";
import { Link } from "./Link";
import { tableHref } from "./tableHref";
import type { TableQuery } from "./tableTypes";
import { words } from "./words";

export interface TablePagesProps {
  at: TableQuery;
  /** Cursor of the next page, sent as `after`. */
  next?: string | null | undefined;
  /** Cursor of the page before, sent as `before`; an empty text leads to the first page. */
  previous?: string | null | undefined;
}

/** Links to the pages beside this one. */
export function TablePages({ at, next, previous }: TablePagesProps) {
  const hasPrevious = previous !== null && previous !== undefined;
  if (!next && !hasPrevious) return null;
  return (
    <nav aria-label={words.pages} className="mt-3 flex justify-between gap-3 print:hidden">
      {hasPrevious ? (
        <Link
          rel="prev"
          href={tableHref(at, { before: previous, after: undefined })}
          className={buttonLook("second")}
        >
          {previous ? words.previousPage : words.firstPage}
        </Link>
      ) : (
        <span />
      )}
      {next && (
        <Link
          rel="next"
          href={tableHref(at, { after: next, before: undefined })}
          className={buttonLook("second")}
        >
          {words.nextPage}
        </Link>
      )}
    </nav>
  );
}
