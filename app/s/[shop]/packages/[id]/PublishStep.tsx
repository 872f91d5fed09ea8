import { Button } from "@/app/_ui/Button";

interface Props {
  slug: string;
  packageId: number;
  revision: number;
  disabled: boolean;
}

/** The way to publishing: what others will read comes first. */
export function PublishStep({ slug, packageId, revision, disabled }: Props) {
  return (
    <form method="get" action={`/s/${slug}/packages/${packageId}/publish`} aria-label="Publish">
      <input type="hidden" name="revision" value={revision} readOnly />
      <Button type="submit" tone="main" disabled={disabled}>
        Publish
      </Button>
    </form>
  );
}
