import type { Metadata } from "next";
import { PageHead } from "@/app/_ui/PageHead";

export const metadata: Metadata = { title: "Look into your mail" };

export default function SignUpSent() {
  return (
    <div className="mx-auto max-w-[520px]">
      <PageHead title="Look into your mail" />
      <p className="mb-3">
        A mail is on its way to the address you gave. Follow the link in it within a day and the shop opens.
      </p>
      <p>Nothing came? Look where unwanted mail goes, check the address, and open the shop once more.</p>
    </div>
  );
}
