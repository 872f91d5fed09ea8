"use client";
import { useRouter } from "next/navigation";
import type { PhotoNoun } from "@/lib/domain/photos/limits";
import { useDevice } from "./offline/deviceContext";
import { PhotoPick, type PhotoPickProps } from "./PhotoPick";
import { PhotoState } from "./PhotoState";
import { photoAddress } from "./photoAddress";
import { usePhotoSending } from "./photoSending";
import { photoWords as words } from "./photoWords";
import { useToasts } from "./toastContext";

export interface PhotoTakeProps extends Pick<PhotoPickProps, "of" | "size" | "tone" | "className"> {
  shop: string;
  noun: PhotoNoun;
  id: number;
}

/** Takes a photo of something that is there, and sends it at once. */
export function PhotoTake({ shop, noun, id, ...look }: PhotoTakeProps) {
  const router = useRouter();
  const toasts = useToasts();
  const device = useDevice();
  const sending = usePhotoSending(
    () => {
      toasts.say({ text: words.photoKept });
      router.refresh();
    },
    async ({ file, key }, lost) =>
      noun === "step" ? device?.keepPhoto({ stepId: id, key, file, lost }) : undefined,
  );
  const address = photoAddress(shop, noun, id);
  const { photo } = sending;
  return (
    <>
      {photo && (
        <PhotoState photo={photo} onAgain={() => sending.send(photo, address)} onDrop={sending.drop} />
      )}
      {photo?.share == null && (
        <PhotoPick {...look} onFile={(file) => sending.send(sending.choose(file), address)} />
      )}
    </>
  );
}
