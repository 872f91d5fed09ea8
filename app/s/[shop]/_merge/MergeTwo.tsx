import { notFound } from "next/navigation";
import { PageHead } from "@/app/_ui/PageHead";
import { previewBikes } from "@/lib/data/merging/bikes";
import { bikeDoubles, customerDoubles, partDoubles } from "@/lib/data/merging/candidates";
import { previewCustomers } from "@/lib/data/merging/customers";
import { previewParts } from "@/lib/data/merging/parts";
import { askedId } from "@/lib/gate/ids";
import type { OpenShop } from "@/lib/gate/open";
import { mergeTwoBikes, mergeTwoCustomers, mergeTwoParts } from "./actions";
import { ChooseDouble } from "./ChooseDouble";
import { MergeView } from "./MergeView";

const KINDS = {
  bike: {
    room: "bikes",
    title: "Merge two bikes",
    preview: previewBikes,
    doubles: bikeDoubles,
    merge: mergeTwoBikes,
  },
  customer: {
    room: "customers",
    title: "Merge two customers",
    preview: previewCustomers,
    doubles: customerDoubles,
    merge: mergeTwoCustomers,
  },
  part: {
    room: "stock",
    title: "Merge two parts",
    preview: previewParts,
    doubles: partDoubles,
    merge: mergeTwoParts,
  },
} as const;

interface Props {
  shop: OpenShop;
  noun: keyof typeof KINDS;
  id: number;
  /** The address's query: which record to merge with, or the words to look for one by. */
  asked: Record<string, string | string[] | undefined>;
}

/** Choosing a record's double, then what goes over, for customers, bikes and parts alike. */
export async function MergeTwo({ shop, noun, id, asked }: Props) {
  const { title, preview, doubles, merge, ...kind } = KINDS[noun];
  const other = askedId(asked.with);
  const q = String(asked.q ?? "").slice(0, 100);
  const room = `/s/${shop.slug}/${kind.room}`;
  const found = other === undefined ? null : await preview(shop.read, id, other);
  if (other !== undefined && !found) notFound();
  return (
    <>
      <PageHead of={shop.name} title={title} />
      {found ? (
        <MergeView
          shop={shop.slug}
          noun={noun}
          home={`${room}/${id}`}
          swapped={`${room}/${other}/merge?with=${id}`}
          preview={found.preview}
          action={merge}
        />
      ) : (
        <ChooseDouble
          here={`${room}/${id}/merge`}
          q={q}
          candidates={(await doubles(shop, id, q)) ?? notFound()}
        />
      )}
    </>
  );
}
