import type { Metadata } from "next";
import { ComeBack } from "@/app/_ui/ComeBack";
import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { sampleOf } from "@/lib/data/people/sampleShop";
import { person } from "@/lib/gate/personAction";
import { sampleOffered } from "@/lib/gate/sample";
import { openSampleShop, removeSampleShop } from "./actions";

export const metadata: Metadata = { title: "Sample shop" };

export default async function SampleShop() {
  const session = await person("/account/sample");
  const sample = await sampleOf(session.personId);
  return (
    <div className="mx-auto grid max-w-[640px] gap-6">
      <PageHead title="Sample shop" sub="to try things in" />
      <p className="max-w-prose text-soft">
        A workshop of its own with invented customers, bikes, parts, packages and a full week of work. Do in
        it whatever you like: no mail leaves it, nobody else sees it, and it is no part of your own shops.
      </p>
      {sample.state === "failed" && <Note title="The last try failed.">{sample.failure}</Note>}
      {sample.state === "waiting" && (
        <div role="status">
          <p className="font-semibold">It is being made. This takes about half a minute.</p>
          <p className="text-soft">You may go on elsewhere: it will be among your shops.</p>
          <ComeBack />
        </div>
      )}
      {sample.state === "made" && (
        <div className="flex flex-wrap gap-3">
          <LinkButton href={`/s/${sample.slug}`} tone="main">
            Go to the sample shop
          </LinkButton>
          <Form action={removeSampleShop} label="Remove the sample shop">
            <SubmitButton tone="danger">Remove it with all that is in it</SubmitButton>
          </Form>
        </div>
      )}
      {(sample.state === "none" || sample.state === "failed") &&
        (sampleOffered() ? (
          <Form action={openSampleShop} label="Open a sample shop">
            <SubmitButton tone="main">Open a sample shop</SubmitButton>
          </Form>
        ) : (
          <p>This server makes no sample shops.</p>
        ))}
    </div>
  );
}
