"use client";
import { useEffect, useState } from "react";
import type { KeptAct } from "@/lib/domain/offline/acts";
import type { Device } from "./deviceContext";

/** A photo that waits on this device. */
export function KeptPhoto({ act, device }: { act: KeptAct; device: Device }) {
  const [seen, setSeen] = useState<string>();
  useEffect(() => {
    let address: string | undefined;
    let gone = false;
    void device.photoOf(act.seq).then((photo) => {
      if (!photo || gone) return;
      address = URL.createObjectURL(photo);
      setSeen(address);
    });
    return () => {
      gone = true;
      if (address) URL.revokeObjectURL(address);
    };
  }, [act.seq, device]);
  if (!seen) return null;
  // biome-ignore lint/performance/noImgElement: a picture on this device, not one of the server's
  return <img src={seen} alt="Waiting to be sent" className="my-1 size-20 rounded-[3px] object-cover" />;
}
