"use client";
import { useEffect, useState } from "react";
import { PHOTO } from "@/lib/domain/photos/limits";
import { photoWords as words } from "./photoWords";
import { randomKey } from "./randomKey";

/** A photo on its way: what was chosen stays until it has arrived or is dropped. */
export interface PhotoOnItsWay {
  readonly file: File;
  /** The same key each time it is sent: it is kept once. */
  readonly key: string;
  /** An address of the picture on this device. */
  readonly seen: string;
  /** Share sent, 0 to 1; null while it is not being sent. */
  readonly share: number | null;
  /** Why it did not arrive. */
  readonly trouble: string;
}

interface Answer {
  readonly arrived: boolean;
  /** No answer came. */
  readonly lost?: boolean;
  readonly trouble: string;
}

/** XMLHttpRequest and not fetch: only it tells how much of a body has gone. */
function post(address: string, file: File, onShare: (share: number) => void): Promise<Answer> {
  return new Promise((resolve) => {
    const request = new XMLHttpRequest();
    const lost = () => resolve({ arrived: false, lost: true, trouble: words.photoLost });
    request.open("POST", address);
    request.timeout = 180_000;
    request.upload.onprogress = (event) => event.lengthComputable && onShare(event.loaded / event.total);
    request.onload = () => {
      const told = request.getResponseHeader("Content-Type")?.startsWith("text/plain");
      const arrived = request.status === 200;
      resolve({ arrived, trouble: arrived ? "" : told ? request.responseText : words.photoBroke });
    };
    request.onerror = lost;
    request.ontimeout = lost;
    request.send(file);
  });
}

/** Keeps a photo on the device instead: what is wrong with it, null once it is kept, nothing where it cannot be kept. */
export type KeepInstead = (photo: PhotoOnItsWay, lost: boolean) => Promise<string | null | undefined>;

/** Holds one chosen photo and sends it on demand; where there is no connection, `keep` may take it. */
export function usePhotoSending(onArrived: () => void, keep?: KeepInstead) {
  const [photo, setPhoto] = useState<PhotoOnItsWay | null>(null);
  const seen = photo?.seen;
  useEffect(() => {
    if (seen) return () => URL.revokeObjectURL(seen);
  }, [seen]);
  return {
    photo,
    choose: (file: File): PhotoOnItsWay => {
      const trouble = file.size > PHOTO.mostBytes ? words.photoTooLarge : "";
      const chosen = { file, key: randomKey(), seen: URL.createObjectURL(file), share: null, trouble };
      setPhoto(chosen);
      return chosen;
    },
    drop: () => setPhoto(null),
    send: async (chosen: PhotoOnItsWay, address: string): Promise<void> => {
      if (chosen.file.size > PHOTO.mostBytes) return;
      const tell = (share: number | null, trouble = "") => setPhoto({ ...chosen, share, trouble });
      const taken = async (lost: boolean) => {
        const wrong = await keep?.(chosen, lost);
        if (wrong === undefined) return false;
        if (wrong === null) setPhoto(null);
        else tell(null, wrong);
        return true;
      };
      if (await taken(false)) return;
      tell(0);
      const { arrived, lost, trouble } = await post(`${address}&key=${chosen.key}`, chosen.file, tell);
      if (lost && (await taken(true))) return;
      if (!arrived) return tell(null, trouble);
      setPhoto(null);
      onArrived();
    },
  };
}
