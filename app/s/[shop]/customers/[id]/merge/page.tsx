import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { MergeTwo } from "../../../_merge/MergeTwo";

interface Props {
  params: Promise<{ shop: string; id: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}

export default async function MergeCustomerPage({ params, searchParams }: Props) {
  const [{ shop: slug, id }, asked] = await Promise.all([params, searchParams]);
  const shop = await open("record.merge", slug);
  return <MergeTwo shop={shop} noun="customer" id={pathId(id)} asked={asked} />;
}
