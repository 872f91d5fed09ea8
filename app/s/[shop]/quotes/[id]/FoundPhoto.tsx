"use client";
import { type ComponentProps, lazy, Suspense } from "react";

/** Of the few quotes that came from a finding. */
const PhotoTake = lazy(async () => ({ default: (await import("@/app/_ui/PhotoTake")).PhotoTake }));

export function FoundPhoto(props: ComponentProps<typeof PhotoTake>) {
  return (
    <Suspense>
      <PhotoTake {...props} />
    </Suspense>
  );
}
