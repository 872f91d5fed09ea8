import { buttonLook } from "@/app/_ui/buttonLook";
import { DateField } from "@/app/_ui/DateField";
import { DateText } from "@/app/_ui/DateText";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { SelectField } from "@/app/_ui/SelectField";
import type { Ranges } from "@/lib/data/figures/ranges";
import type { OpenShop } from "@/lib/gate/open";
import { type FiguresAsked, RANGE_WORDS } from "@/lib/schemas/figures";
import { figuresQuery } from "./query";
import { Rooms } from "./Rooms";

interface Props {
  shop: OpenShop;
  title: string;
  /** The room's path under the figures. */
  room: string;
  asked?: FiguresAsked;
  ranges?: Ranges;
  /** What the file of this figure is called in its address; none where there is none. */
  csv?: string;
}

/** The head of a page of figures: the other rooms, and the range with what it is held against. */
export function FiguresHead({ shop, title, room, asked, ranges, csv }: Props) {
  const { locale } = shop.settings;
  const query = asked ? figuresQuery({ range: asked.range, from: asked.from, to: asked.to }) : "";
  const days = ({ from, to }: { from: string; to: string }) => (
    <>
      <DateText date={from} locale={locale} /> to <DateText date={to} locale={locale} />
    </>
  );
  return (
    <>
      <PageHead
        of={shop.name}
        title={title}
        sub={
          ranges && (
            <>
              {days(ranges.range)}, against {days(ranges.before)}
            </>
          )
        }
        actions={
          csv && (
            <LinkButton
              href={`/api/s/${shop.slug}/figures/csv${query}${query ? "&" : "?"}figure=${csv}`}
              download
            >
              Export CSV
            </LinkButton>
          )
        }
      />
      <Rooms shop={shop} room={room} query={query} />
      {asked && ranges && (
        <form method="get" aria-label="Range" className="mb-5 flex flex-wrap items-end gap-3 print:hidden">
          <SelectField
            name="range"
            label="Range"
            initial={asked.range}
            options={Object.entries(RANGE_WORDS).map(([value, label]) => ({ value, label }))}
            className="mb-0!"
          />
          <DateField name="from" label="From" initial={ranges.range.from} className="mb-0!" />
          <DateField name="to" label="To" initial={ranges.range.to} className="mb-0!" />
          <button type="submit" className={buttonLook("second")}>
            Show
          </button>
        </form>
      )}
    </>
  );
}
