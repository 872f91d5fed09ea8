import { JetDrawer } from "@/app/_ui/JetDrawer";
import { Link } from "@/app/_ui/Link";
import type { TodayView } from "@/lib/data/today/today";

interface DrawerProps {
  drawer: NonNullable<TodayView["drawer"]>;
  short: TodayView["short"];
  base: string;
  mayOrder: boolean;
}

type Size = DrawerProps["drawer"]["sizes"][number];

const pieces = (milli: number) => milli / 1000;
const sizeText = (size: Size) => String(pieces(size.sizeMilli ?? 0));
const below = (size: Size) => size.pointMilli > 0 && size.onHandMilli - size.reservedMilli < size.pointMilli;

/** The drawer of main jets, and the size that most needs an order, in a sentence. */
export function Drawer({ drawer, short, base, mayOrder }: DrawerProps) {
  const missing = drawer.sizes.find((size) =>
    short.some((job) => job.parts.some((part) => part.id === size.id)),
  );
  const low =
    missing ??
    drawer.sizes.find((size) => below(size) && size.onOrderMilli === 0) ??
    drawer.sizes.find(below);
  const waits = short.find((job) => job.parts.some((part) => part.id === low?.id));
  return (
    <>
      <JetDrawer
        name={drawer.family}
        sizes={drawer.sizes.map((size) => ({
          size: pieces(size.sizeMilli ?? 0),
          label: sizeText(size),
          onHand: pieces(size.onHandMilli),
          reserved: pieces(size.reservedMilli),
          point: size.pointMilli > 0 ? pieces(size.pointMilli) : null,
          href: `${base}/stock/${size.id}`,
        }))}
      />
      <p className="mt-3">
        {low ? (
          <>
            <span className="font-mono">{sizeText(low)}</span>{" "}
            {waits ? `is short for job ${waits.number}` : `is below its point of ${pieces(low.pointMilli)}`}
            {low.reservedMilli > 0 && `, ${pieces(low.reservedMilli)} of ${pieces(low.onHandMilli)} reserved`}
            {low.onOrderMilli > 0 ? `; ${pieces(low.onOrderMilli)} on order. ` : ". "}
            {mayOrder && low.onOrderMilli === 0 && (
              <Link
                href={`${base}/stock/${low.id}`}
                className="font-semibold text-brass underline underline-offset-4"
              >
                Order it
              </Link>
            )}
          </>
        ) : (
          "No size is below its point."
        )}
      </p>
    </>
  );
}
