import type { ReactNode } from "react";
import { PhotoTake } from "@/app/_ui/PhotoTake";
import { Section } from "@/app/_ui/Section";
import { photosOf } from "@/lib/data/photos/list";
import type { PhotoNoun } from "@/lib/domain/photos/limits";
import type { OpenShop } from "@/lib/gate/open";
import { ShopThumbs } from "./ShopThumbs";

interface PhotosProps {
  shop: OpenShop;
  noun: PhotoNoun;
  id: number;
  /** What they show, in words. */
  of: string;
  /** On the card: no section of its own, one row, a button for gloves. */
  onCard?: boolean | undefined;
  children?: ReactNode;
}

/** The photos of one thing, and taking another; nothing where the role sees no photos. */
export async function Photos({ shop, noun, id, of, onCard, children }: PhotosProps) {
  if (!shop.can("photo.read")) return null;
  const photos = (await photosOf(shop, noun, [id])).get(id) ?? [];
  const take = shop.can("photo.write") && (
    <PhotoTake shop={shop.slug} noun={noun} id={id} of={`of ${of}`} size={onCard ? "act" : "normal"} />
  );
  const body = (
    <>
      <ShopThumbs slug={shop.slug} photos={photos} of={of} row={onCard} />
      {take}
      {children}
    </>
  );
  if (onCard) return <div className="my-4">{body}</div>;
  return <Section title="Photos">{body}</Section>;
}
